package web

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	_ "image/png" // a sketch may come as one
	"io"
	"net/http"
	"strconv"
)

// The bounds of a picture that is laid behind the front view. A picture names
// its size before it is unpacked: what would unpack to more than the bound is
// refused unread.
const (
	maxPictureBytes  = 20 << 20
	maxPictureSide   = 12000
	maxPicturePixels = 24_000_000
	pictureSide      = 1600 // what is kept of it, along its longer side
	mostPictures     = 3
)

// picture is one as it is kept: unpacked, turned upright, made smaller, and
// packed again. So nothing of the file that came is handed on: neither what
// hides in it, nor where the camera was.
type picture struct {
	id            string
	jpeg          []byte
	width, height int
}

// takenPicture is what the page is told of it.
type takenPicture struct {
	ID     string `json:"id"`
	Width  int    `json:"width"`
	Height int    `json:"height"`
}

// takePicture reads a picture that the page posts.
func (d *desk) takePicture(w http.ResponseWriter, r *http.Request) {
	if kind := r.Header.Get("Content-Type"); kind != "image/png" && kind != "image/jpeg" {
		http.Error(w, "a picture is a PNG or a JPEG", http.StatusUnsupportedMediaType)
		return
	}
	data, err := io.ReadAll(http.MaxBytesReader(w, r.Body, maxPictureBytes))
	if err != nil {
		reply(w, http.StatusRequestEntityTooLarge, refusal{Why: "the picture is larger than 20 MB, or did not come whole"})
		return
	}
	select { // unpacking takes room: one at a time
	case d.compute <- struct{}{}:
		defer func() { <-d.compute }()
	case <-r.Context().Done():
		return
	}
	p, err := repacked(data)
	if err != nil {
		reply(w, http.StatusUnprocessableEntity, refusal{Why: err.Error()})
		return
	}
	p.id = d.cfg.NewID()
	d.mu.Lock()
	d.pictures = append(d.pictures, p)
	if len(d.pictures) > mostPictures {
		d.pictures = d.pictures[1:]
	}
	d.mu.Unlock()
	reply(w, http.StatusOK, takenPicture{p.id, p.width, p.height})
}

// servePicture shows a picture to the page that posted it.
func (d *desk) servePicture(w http.ResponseWriter, r *http.Request) {
	data := d.pictureOf(r.PathValue("id"))
	if data == nil {
		http.NotFound(w, r)
		return
	}
	w.Header().Set("Content-Type", "image/jpeg")
	w.Header().Set("Content-Length", strconv.Itoa(len(data)))
	_, _ = w.Write(data) // who went away needs no answer
}

func (d *desk) pictureOf(id string) []byte {
	d.mu.Lock()
	defer d.mu.Unlock()
	for _, p := range d.pictures {
		if p.id == id && id != "" {
			return p.jpeg
		}
	}
	return nil
}

var errNoPicture = errors.New("it is no PNG or JPEG that can be read")

// repacked unpacks a picture from outside and packs it anew.
func repacked(data []byte) (picture, error) {
	c, kind, err := image.DecodeConfig(bytes.NewReader(data))
	if err != nil || kind != "png" && kind != "jpeg" {
		return picture{}, errNoPicture
	}
	if c.Width < 16 || c.Height < 16 {
		return picture{}, errors.New("the picture is too small to trace over")
	}
	if c.Width > maxPictureSide || c.Height > maxPictureSide || c.Width*c.Height > maxPicturePixels {
		return picture{}, fmt.Errorf("the picture has %d by %d points; %d million are the most", c.Width, c.Height, maxPicturePixels/1_000_000)
	}
	img, _, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		return picture{}, errNoPicture
	}
	up := upright(shrunk(img), orientation(data))
	var out bytes.Buffer
	if err := jpeg.Encode(&out, up, &jpeg.Options{Quality: 82}); err != nil {
		return picture{}, errNoPicture
	}
	return picture{jpeg: out.Bytes(), width: up.Bounds().Dx(), height: up.Bounds().Dy()}, nil
}

// shrunk makes a picture no longer than pictureSide on white ground: each point
// is the mean of those that it stands for.
func shrunk(img image.Image) *image.RGBA {
	b := img.Bounds()
	f := min(1, float64(pictureSide)/float64(max(b.Dx(), b.Dy())))
	w, h := max(1, int(float64(b.Dx())*f)), max(1, int(float64(b.Dy())*f))
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		y0, y1 := b.Min.Y+y*b.Dy()/h, b.Min.Y+(y+1)*b.Dy()/h
		for x := range w {
			x0, x1 := b.Min.X+x*b.Dx()/w, b.Min.X+(x+1)*b.Dx()/w
			out.SetRGBA(x, y, mean(img, image.Rect(x0, y0, max(x1, x0+1), max(y1, y0+1))))
		}
	}
	return out
}

// mean is that of nine points of a rectangle or of all of them, if they are
// fewer.
func mean(img image.Image, in image.Rectangle) color.RGBA {
	var r, g, b, n uint64
	for y := in.Min.Y; y < in.Max.Y; y += max(1, in.Dy()/3) {
		for x := in.Min.X; x < in.Max.X; x += max(1, in.Dx()/3) {
			pr, pg, pb, pa := img.At(x, y).RGBA()
			white := uint64(0xffff - pa)
			r, g, b, n = r+uint64(pr)+white, g+uint64(pg)+white, b+uint64(pb)+white, n+1
		}
	}
	return color.RGBA{uint8(r / n >> 8), uint8(g / n >> 8), uint8(b / n >> 8), 255}
}

// upright turns a picture as its camera was held: 3 upside down, 6 to the
// right, 8 to the left (Exif 2.3, tag 0x0112). Mirrored ones are left.
func upright(img *image.RGBA, held int) *image.RGBA {
	w, h := img.Bounds().Dx(), img.Bounds().Dy()
	var at func(x, y int) (int, int)
	to := image.Rect(0, 0, w, h)
	switch held {
	case 3:
		at = func(x, y int) (int, int) { return w - 1 - x, h - 1 - y }
	case 6:
		to, at = image.Rect(0, 0, h, w), func(x, y int) (int, int) { return y, h - 1 - x }
	case 8:
		to, at = image.Rect(0, 0, h, w), func(x, y int) (int, int) { return w - 1 - y, x }
	default:
		return img
	}
	out := image.NewRGBA(to)
	for y := range to.Dy() {
		for x := range to.Dx() {
			sx, sy := at(x, y)
			out.SetRGBA(x, y, img.RGBAAt(sx, sy))
		}
	}
	return out
}

// orientation reads from a JPEG how its camera was held; 1 where it does not
// say. It follows nothing beyond the segment that the tag stands in.
func orientation(data []byte) int {
	if len(data) < 4 || data[0] != 0xff || data[1] != 0xd8 {
		return 1
	}
	for at := 2; at+4 <= len(data) && data[at] == 0xff && data[at+1] != 0xda; {
		size := int(binary.BigEndian.Uint16(data[at+2:]))
		if size < 2 || at+2+size > len(data) {
			return 1
		}
		body := data[at+4 : at+2+size]
		if data[at+1] == 0xe1 && bytes.HasPrefix(body, []byte("Exif\x00\x00")) {
			return heldIn(body[6:])
		}
		at += 2 + size
	}
	return 1
}

// heldIn reads the tag from the first table of a TIFF header.
func heldIn(t []byte) int {
	if len(t) < 8 {
		return 1
	}
	var order binary.ByteOrder = binary.LittleEndian
	if t[0] == 'M' {
		order = binary.BigEndian
	}
	from := int(order.Uint32(t[4:]))
	if from < 8 || from+2 > len(t) {
		return 1
	}
	n := int(order.Uint16(t[from:]))
	for i := range n {
		at := from + 2 + 12*i
		if at+12 > len(t) {
			return 1
		}
		if order.Uint16(t[at:]) == 0x0112 {
			if v := int(order.Uint16(t[at+8:])); v >= 1 && v <= 8 {
				return v
			}
			return 1
		}
	}
	return 1
}
