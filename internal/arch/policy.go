package arch

// floors lists the packages of the module bottom up. A package may import
// packages of lower floors only, never of its own: what two neighbours both
// need lies below them. "x/*" stands for every package below x.
var floors = [][]string{
	{"internal/diag", "internal/outdir", "internal/noskip", "internal/arch", "internal/web/ui", "examples", "schema"},
	{"internal/units", "internal/geom/r2", "internal/geom/r3", "internal/cite", "internal/judge"},
	{"internal/trace"},
	{"internal/say", "internal/expr"},
	{"internal/table", "internal/geom/planar", "internal/material", "internal/design"},
	{"internal/mech/*", "internal/geom/solid", "internal/sheet", "internal/leaf"},
	{"internal/geom/view", "internal/sheet/bound", "internal/sheet/verify"},
	{"internal/sheet/pack"},
	{"internal/piece", "internal/format/*", "internal/outside"},
	{"internal/work"},
	{"internal/replay"},
	{"internal/compile", "internal/dryfit", "internal/making", "internal/layout", "internal/check", "internal/brief", "internal/meet", "internal/fit"},
	{"internal/plan"},
	{"internal/drawing", "internal/template", "internal/label", "internal/starter"},
	{"internal/model"},
	{"internal/book", "internal/export", "internal/lists"},
	{"internal/book/html", "internal/book/pdf", "internal/book/text", "internal/book/sample", "internal/deliver"},
	{"internal/web"},
	{"internal/cli"},
	{"cmd/rodwork", "internal/browser", "tools/*"},
}

// A ban keeps packages from importing others, beyond what the floors say. It
// holds for tests too where Tests is set.
type ban struct {
	why   string
	who   []string // patterns of packages of the module
	not   []string // patterns of imports, of the module or of the standard library
	allow []string // exceptions among who
}

var bans = []ban{
	{
		why:   "a computation reads no file, clock, environment or network, and draws no lots",
		who:   []string{"internal/*"},
		not:   []string{"os", "os/exec", "os/signal", "io/ioutil", "net", "net/http", "time", "math/rand", "crypto/rand", "syscall", "runtime/debug", "log"},
		allow: []string{"internal/cli", "internal/outdir", "internal/noskip", "internal/judge", "internal/browser", "internal/web"},
	},
	{
		why: "nothing here speaks to a network, but for the page: internal/web answers requests, internal/cli listens for them " +
			"on the loopback interface only, and asks there whether it listens already; the browser's stories open the page",
		who:   []string{"internal/*", "cmd/*", "examples"},
		not:   []string{"net", "net/http", "net/rpc", "net/smtp"},
		allow: []string{"internal/web", "internal/cli", "internal/browser"},
	},
	{
		why: "the page is handed its files by who starts it, and cannot reach the disk",
		who: []string{"internal/web", "internal/web/*"},
		not: []string{"os", "os/exec", "io/ioutil", "path/filepath", "internal/outdir", "crypto/rand"},
	},
	{
		why: "nothing goes round the type system",
		who: []string{"*"},
		not: []string{"unsafe", "C"},
	},
	{
		why: "formulas take quantities and never know a piece, so that a source's own example can be their test",
		who: []string{"internal/mech/*", "internal/material"},
		not: []string{"internal/design", "internal/piece", "internal/work", "internal/plan", "internal/trace"},
	},
	{
		why: "packing is a pure problem, in shapes and numbers",
		who: []string{"internal/sheet", "internal/sheet/*"},
		not: []string{"internal/design", "internal/piece", "internal/work", "internal/trace", "internal/units", "internal/mech/*"},
	},
	{
		why: "the checker of an answer shares nothing with the search that found it",
		who: []string{"internal/sheet/verify"},
		not: []string{"internal/sheet/pack", "internal/sheet/bound"},
	},
	{
		why: "who goes through an order again knows nothing of the search that found it",
		who: []string{"internal/replay"},
		not: []string{"internal/dryfit", "internal/making", "internal/compile", "internal/meet"},
	},
	{
		why: "a file format knows no word of the trade",
		who: []string{"internal/format/*", "internal/leaf", "internal/table"},
		not: []string{"internal/design", "internal/piece", "internal/work", "internal/plan", "internal/mech/*"},
	},
	{
		why: "what holds the model prints nothing; only the outermost packages do",
		who: []string{"internal/trace", "internal/piece", "internal/plan", "internal/compile"},
		not: []string{"html/template", "text/template", "text/tabwriter"},
	},
}

// maxLines is the length of a file. Tables of data are excepted by name, each
// with its reason.
const maxLines = 500

var longFiles = map[string]string{}

// deps is every module that the program may be built from, with what for.
// Tests may use more; see go.mod.
var deps = map[string]string{
	"github.com/goccy/go-yaml":             "the syntax of the two files",
	"github.com/peterstace/simplefeatures": "booleans of regions with slanting edges",
	"github.com/alecthomas/kong":           "the command line",
	"github.com/skip2/go-qrcode":           "the modules of a QR code",
}
