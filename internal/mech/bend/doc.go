// Package bend plans kerfed bends.
package bend
