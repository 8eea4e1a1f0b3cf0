// Package html sets a book as one self-contained page: all style, fonts and
// figures are inside, nothing is ever requested, and no script is needed.
package html

import "rodwork/internal/book"

// Render returns the page.
func Render(b *book.Book) []byte { return nil }
