// Package ui has the page's own files: style and script as they are served,
// with no step of building between.
package ui

import "embed"

// Files are the page's files, by their names.
//
//go:embed *.css *.js
var Files embed.FS
