package risk

// step is what the counts of a start differ by from those of the start before.
type step struct{ known, survives, ripens, succeeds int32 }

// count counts starts that survive unless they are put out before the night that kills them.
func (b *bulk) count(from, to int, e ending, ripens bool) {
	b.add(from, min(to, e.lost-1), false, ripens)
	b.add(max(from, e.lost), to, true, ripens)
}

// add counts the starts from one to another, both included.
func (b *bulk) add(from, to int, survives, ripens bool) {
	if from > to {
		return
	}
	a, z := &b.steps[from-b.sums.from], &b.steps[to+1-b.sums.from]
	a.known++
	z.known--
	if survives {
		a.survives++
		z.survives--
	}
	if ripens {
		a.ripens++
		z.ripens--
	}
	if survives && ripens {
		a.succeeds++
		z.succeeds--
	}
}

// into adds what was counted to the starts of a window.
func (b *bulk) into(dst []Counts) {
	var at step
	for k := range dst {
		s, d := b.steps[k], &dst[k]
		at = step{at.known + s.known, at.survives + s.survives, at.ripens + s.ripens, at.succeeds + s.succeeds}
		d.Known += int(at.known)
		d.Survives += int(at.survives)
		d.Ripens += int(at.ripens)
		d.Succeeds += int(at.succeeds)
	}
}
