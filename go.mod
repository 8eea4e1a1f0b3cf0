module rodwork

go 1.26

require (
	github.com/alecthomas/kong v1.17.0
	github.com/chromedp/cdproto v0.159.0
	github.com/chromedp/chromedp v0.23.0
	github.com/goccy/go-yaml v1.19.2
	github.com/google/go-cmp v0.7.0
	github.com/peterstace/simplefeatures v0.50.0
	github.com/rogpeppe/go-internal v1.16.0
	github.com/skip2/go-qrcode v0.0.0-20200617195104-da1b6568686e
	pgregory.net/rapid v1.3.0
)

require (
	github.com/go-json-experiment/json v0.0.0-20260213210345-44df1a37e875 // indirect
	golang.org/x/sys v0.26.0 // indirect
	golang.org/x/tools v0.26.0 // indirect
)
