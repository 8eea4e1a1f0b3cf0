package main

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"rodwork/internal/sheet"
)

// instance is one problem with what is published of it, oriented and turning;
// 0 is not known.
type instance struct {
	class, name string
	problem     sheet.Problem
	best, bound [2]int
}

// readBerkeyMartello reads the 500 instances and the tables.
func readBerkeyMartello(data string) ([]instance, error) {
	rows, err := table(filepath.Join(data, "tables", "bw_mv_500_per_instance.csv"))
	if err != nil {
		return nil, err
	}
	published := map[string]map[string]string{}
	for _, r := range rows {
		published[r["class"]+"/"+r["n"]+"/"+r["index"]] = r
	}
	var out []instance
	for class := 1; class <= 10; class++ {
		text, err := os.ReadFile(filepath.Join(data, "rectangles", "bw_mv_500", fmt.Sprintf("Class_%02d.2bp", class)))
		if err != nil {
			return nil, err
		}
		ins, err := parseClass(class, string(text))
		if err != nil {
			return nil, err
		}
		for _, in := range ins {
			r := published[in.name]
			in.best = [2]int{number(r["best_3stage_guillotine_oriented"]), number(r["best_3stage_guillotine_rotation"])}
			in.bound = [2]int{number(r["dff_lb_oriented"]), number(r["dff_lb_rotation"])}
			out = append(out, in)
		}
	}
	return out, nil
}

// parseClass reads one file: for each instance the class, the number of parts,
// its number, the sheet, then height and width of each part; texts are remarks.
func parseClass(class int, text string) ([]instance, error) {
	var nums []int64
	for _, f := range strings.Fields(text) {
		if v, err := strconv.ParseInt(f, 10, 64); err == nil {
			nums = append(nums, v)
		}
	}
	var out []instance
	for len(nums) >= 6 {
		n, index, h, w := nums[1], nums[2], nums[4], nums[5]
		if nums[0] != int64(class) || n < 0 || n > int64(len(nums)) || int64(len(nums)) < 6+2*n {
			return nil, fmt.Errorf("class %d: instance %d is not as it should be", class, len(out))
		}
		in := instance{class: fmt.Sprint(class), name: fmt.Sprintf("%d/%d/%d", class, n, index)}
		in.problem.Stocks = []sheet.Stock{{Name: "sheet", Length: w, Width: h, Available: sheet.Unlimited}}
		for i := range n {
			in.problem.Parts = append(in.problem.Parts, sheet.Part{ID: fmt.Sprint(i), Length: nums[7+2*i], Width: nums[6+2*i], Grain: sheet.Along, Copies: 1})
		}
		out, nums = append(out, in), nums[6+2*n:]
	}
	return out, nil
}

// readSilva reads the 30 cutting orders and the table.
func readSilva(data string) ([]instance, error) {
	rows, err := table(filepath.Join(data, "tables", "silva2010_30_bounds.csv"))
	if err != nil {
		return nil, err
	}
	var out []instance
	for _, r := range rows {
		text, err := os.ReadFile(filepath.Join(data, "rectangles", "silva2010", r["file"]))
		if err != nil {
			return nil, err
		}
		var order struct {
			Name           string
			Objects, Items []struct {
				Length, Height int64
				Demand         int
			}
		}
		if err := json.Unmarshal(text, &order); err != nil {
			return nil, err
		}
		in := instance{class: "orders", name: order.Name}
		in.best[0], in.bound = number(r["best_3stage_3HVO(oriented)"]), [2]int{number(r["dff_lb_oriented"]), number(r["dff_lb_rotation"])}
		in.problem.Stocks = []sheet.Stock{{Name: "sheet", Length: order.Objects[0].Length, Width: order.Objects[0].Height, Available: sheet.Unlimited}}
		for i, q := range order.Items {
			in.problem.Parts = append(in.problem.Parts, sheet.Part{ID: fmt.Sprint(i), Length: q.Length, Width: q.Height, Grain: sheet.Along, Copies: q.Demand})
		}
		out = append(out, in)
	}
	return out, nil
}

// table reads a file of comma separated values, by the names in its first line.
func table(file string) ([]map[string]string, error) {
	f, err := os.Open(file)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	lines, err := csv.NewReader(f).ReadAll()
	if err != nil || len(lines) == 0 {
		return nil, fmt.Errorf("%s: %w", file, err)
	}
	var out []map[string]string
	for _, l := range lines[1:] {
		row := map[string]string{}
		for i, name := range lines[0] {
			row[name] = l[i]
		}
		out = append(out, row)
	}
	return out, nil
}

func number(s string) int {
	n, _ := strconv.Atoi(s)
	return n
}
