package daily

// quick reads the plainest rows of a table: yyyy-mm-dd,number,number.
type quick struct{}

func newQuick(d *delimited) *quick { return nil }

func (q *quick) rows(b []byte) (n, lines int) { return 0, 0 }
