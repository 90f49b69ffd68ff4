package risk

// warmthRows works out a field's warmth as far as it is wanted.
type warmthRows struct{}

func (r *warmthRows) fill(i, to int) {}
