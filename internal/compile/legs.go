package compile
func (b *builder) legs() {}
func (b *builder) freeParts() {}
func (b *builder) open() {}
