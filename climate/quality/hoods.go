package quality

import "math"

// hoods is what loneValues looks at: the standardised values and how they go together.
type hoods struct {
	r      *record
	z      standard
	months [13]expect

	counted bool    // whether months are of this series
	seen    bool    // whether found and losses are, as it stood when taken was
	taken   int     // record.taken
	found   []doubt // by look: too far from its expectation
	losses  []doubt // by look: may have lost its sign
}

// doubt is a value far from its expectation.
type doubt struct {
	i   int
	e   Element
	off float64
}

// hoods counts the neighbourhoods, once.
func (r *record) hoods() *hoods {
	b := &r.work.hoods
	if b.counted {
		return b
	}
	b.r, b.z, b.months, b.counted, b.seen = r, r.standardised(), [13]expect{}, true, false
	step := max(1, r.len()/enoughHoods)
	i := 1
	for _, m := range r.months {
		to := min(m.to, r.len()-1)
		x := &b.months[m.month]
		if i < to && b.fit(i, to) {
			x.takeAll(b.z, i, to, step)
			i += (to - i + step - 1) / step * step
			continue
		}
		for ; i < to; i += step {
			x.take(b.z.around(i))
		}
	}
	return b
}

// fit tells whether every neighbourhood of some days, to not included, is one to be counted.
func (b *hoods) fit(from, to int) bool {
	for _, z := range b.z {
		for _, v := range z[from-1 : to+1] {
			if !(math.Abs(v) < hoodZ) {
				return false
			}
		}
	}
	return true
}

// takeAll takes the neighbourhoods of every step-th of some days, all of them fit. It adds the
// same in the same order as take does, but finds each value where it stands, a few sums at a
// time, which the processor can then hold.
func (x *expect) takeAll(z standard, from, to, step int) {
	// Of one length, so that the compiler sees that no index is outside.
	n0, m0 := z[Tmin][from-1:to-1], z[Tmax][from-1:to-1]
	n1, m1, n2, m2 := z[Tmin][from:][:len(n0)], z[Tmax][from:][:len(n0)], z[Tmin][from+1:][:len(n0)], z[Tmax][from+1:][:len(n0)]
	m0 = m0[:len(n0)]
	c := &x.cov
	s00, s10, s11, s20, s21, s22 := c[0][0], c[1][0], c[1][1], c[2][0], c[2][1], c[2][2]
	s30, s31, s32, s33 := c[3][0], c[3][1], c[3][2], c[3][3]
	for i := 0; i < len(n0); i += step {
		a0, b0, a1, b1 := n0[i], m0[i], n1[i], m1[i]
		s00 += a0 * a0
		s10 += b0 * a0
		s11 += b0 * b0
		s20 += a1 * a0
		s21 += a1 * b0
		s22 += a1 * a1
		s30 += b1 * a0
		s31 += b1 * b0
		s32 += b1 * a1
		s33 += b1 * b1
	}
	x.n += float64((len(n0) + step - 1) / step)
	c[0][0], c[1][0], c[1][1], c[2][0], c[2][1], c[2][2] = s00, s10, s11, s20, s21, s22
	c[3][0], c[3][1], c[3][2], c[3][3] = s30, s31, s32, s33
	s40, s41, s42, s43, s44 := c[4][0], c[4][1], c[4][2], c[4][3], c[4][4]
	for i := 0; i < len(n0); i += step {
		a2 := n2[i]
		s40 += a2 * n0[i]
		s41 += a2 * m0[i]
		s42 += a2 * n1[i]
		s43 += a2 * m1[i]
		s44 += a2 * a2
	}
	c[4][0], c[4][1], c[4][2], c[4][3], c[4][4] = s40, s41, s42, s43, s44
	s50, s51, s52, s53, s54, s55 := c[5][0], c[5][1], c[5][2], c[5][3], c[5][4], c[5][5]
	for i := 0; i < len(n0); i += step {
		b2 := m2[i]
		s50 += b2 * n0[i]
		s51 += b2 * m0[i]
		s52 += b2 * n1[i]
		s53 += b2 * m1[i]
		s54 += b2 * n2[i]
		s55 += b2 * b2
	}
	c[5][0], c[5][1], c[5][2], c[5][3], c[5][4], c[5][5] = s50, s51, s52, s53, s54, s55
	for a := range c {
		for b := range a {
			c[b][a] = c[a][b]
		}
	}
}

// off returns how far a value is from its expectation, in standard deviations.
func (b *hoods) off(e Element, i int) float64 { return b.months[b.r.month[i]].off(b.z.around(i), e) }

// look finds the values too far from their expectations, and minima that may have lost their
// signs, in the order of the days. Where nothing is missing, nearly always, a value's distance is
// compared with limits that are a little less than the rules', and only then worked out as the
// rules have it.
func (b *hoods) look() {
	if b.seen && b.taken == b.r.taken {
		return
	}
	b.seen, b.taken = true, b.r.taken
	b.found, b.losses = b.found[:0], b.losses[:0]
	n, x := b.z[Tmin], b.z[Tmax]
	last := len(n) - 1
	for _, m := range b.r.months {
		ex := &b.months[m.month]
		if ex.n < outlierValues {
			continue
		}
		const all = 1<<hood - 1
		wn, wx := ex.from(Tmin, all&^(1<<2)), ex.from(Tmax, all&^(1<<3))
		lowN, highN, limitX := -0.99*loneZ*wn.sd, 0.99*signOff*wn.sd, 0.99*loneZ*wx.sd
		for i := m.from; i < m.to; i++ {
			if i > 0 && i < last {
				n0, x0, n1, x1, n2, x2 := n[i-1], x[i-1], n[i], x[i], n[i+1], x[i+1]
				offN := n1 - wn.weight[0]*n0 - wn.weight[1]*x0 - wn.weight[3]*x1 - wn.weight[4]*n2 - wn.weight[5]*x2
				offX := x1 - wx.weight[0]*n0 - wx.weight[1]*x0 - wx.weight[2]*n1 - wx.weight[4]*n2 - wx.weight[5]*x2
				if offN > lowN && offN < highN && math.Abs(offX) < limitX {
					continue
				}
			}
			for e := Tmin; e <= Tmax; e++ {
				o := b.off(e, i)
				if o >= loneZ || o <= -loneZ {
					b.found = append(b.found, doubt{i, e, o})
				}
				if e == Tmin && o >= signOff {
					b.losses = append(b.losses, doubt{i, e, o})
				}
			}
		}
	}
}
