package html

import (
	"crypto/sha256"
	_ "embed"
	"encoding/base64"
	"slices"
	"strings"

	"rodwork/internal/book"
)

// The model that can be turned. Its modules stand in the folder model; with the
// library that draws them (three.js, MIT licence, told at its head) they are
// made into one script by tools/bundle, which needs Node. What it makes is
// committed, so nobody who builds the program needs it, and the tests in .ci
// prove that it is current.
//
//go:embed model/model.bundle
var modelBundle string

//go:embed model/model.css
var modelCSS string

// ModelScript is the script that makes models alive, an ECMAScript module.
func ModelScript() string { return modelBundle }

// inlineModel is the script as it stands in a page that is XML as well as HTML.
var inlineModel = "//<![CDATA[\n" + modelBundle + "\n//]]>"

// withScript is the policy of a page with the script in it, and nothing else
// that runs: browsers are told its very hash.
var withScript = func() string {
	sum := sha256.Sum256([]byte(inlineModel))
	return strings.Replace(policy, "; style-src", "; script-src &#39;sha256-"+base64.StdEncoding.EncodeToString(sum[:])+"&#39;; style-src", 1)
}()

// turns tells whether the book has a model with its data.
func (p *page) turns() bool {
	return !p.live && slices.ContainsFunc(p.book.Chapters, func(c book.Chapter) bool {
		return slices.ContainsFunc(c.Blocks, func(b book.Block) bool {
			f, ok := b.(book.Figure)
			return ok && f.Model != nil
		})
	})
}

func (p *page) policy() string {
	if p.turns() {
		return withScript
	}
	return policy
}

// turned marks a figure of a page that changes: its model is asked for there.
func (p *page) turned(f book.Figure) string {
	if !p.live || !f.Turns {
		return ""
	}
	return ` data-model="/model"`
}

// modelData puts the data of a model into its figure. They hold no mark of a
// page: package model writes those as escapes.
func (p *page) modelData(f book.Figure) {
	if p.live || f.Model == nil {
		return
	}
	p.raw("\n", `<script type="application/json">`, string(f.Model.JSON()), "</script>\n")
}

func (p *page) modelScript() {
	if p.turns() {
		p.raw(`<script type="module">`, inlineModel, "</script>\n")
	}
}
