// Package schema carries the published JSON Schemas (draft 2020-12) of the files
// that Rodwork reads and of what it prints. They are made from the tables that
// the program itself reads by; tests demand that they are current.
package schema

import "embed"

// Files holds piece.schema.json, shop.schema.json and what stands beside them.
//
//go:embed *.json
var Files embed.FS
