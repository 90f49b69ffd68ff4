package daily

import (
	"bytes"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Snow is read where the record has it and its unit is known, in cm; by hand. A bad depth is none, and no fault of the day.
func TestSnow(t *testing.T) {
	const meteostat = "date,tavg,tmin,tmax,prcp,snow,wdir,wspd,wpgt,pres,tsun\n2001-01-01,1,-3.4,5.7,0,120,,,,,\n2001-01-02,1,-3,5,0,,,,,,\n"
	const access = `"STATION","DATE","SNWD","SNWD_ATTRIBUTES","TMAX","TMAX_ATTRIBUTES","TMIN","TMIN_ATTRIBUTES"` + "\n" +
		`"X","2001-01-01","  120",",,S","   57",",,S","  -34",",,S"` + "\n" + `"X","2001-01-02","  130",",K,S","   50",",,S","  -30",",,S"` + "\n"
	for text, want := range map[string][]float64{
		meteostat: {12, 0},
		access:    {12, 0},
		"date,tmin_c,tmax_c,snow depth (cm)\n2001-01-01,-3,5,12\n2001-01-02,-3,5,T\n2001-01-03,-3,5,-9999\n2001-01-04,-3,5\n": {12, 0, 0, 0},
		"STATION,DATE,SNWD,TMAX,TMIN\nX,2001-01-01,12.0,60,40\nX,2001-07-02,0,85,68\n":                                        nil, // inches: below
		"date,tmin_c,tmax_c,snow_depth\n2001-01-01,-3,5,12\n":                                                                 nil, // in what?
		"date,tmin_c,tmax_c,snow depth (cm)\n2001-01-01,-3,5,0\n":                                                             nil, // never any
	} {
		s, rep, err := Read(strings.NewReader(text), "x", Options{})
		if strings.HasPrefix(text, "STATION,DATE,SNWD") {
			s, rep, err = Read(strings.NewReader(text), "x", Options{Units: Fahrenheit})
			want = append([]float64{30.48}, make([]float64, 182)...)
		}
		require.NoError(t, err, text)
		assert.Zero(t, rep.FaultCount, text)
		assert.InDeltaSlice(t, want, s.Snow, 1e-9, text)
		assert.Equal(t, want != nil, strings.Contains(fmt.Sprint(rep.Notes), "snow on the ground is read, too: it lay on 1 days"), rep.Notes)
	}
	line := func(element string, v int) string {
		return "XXX00000001200101" + element + strings.Repeat(fmt.Sprintf("%5d   ", v), 31) + "\n"
	}
	s, _, err := Read(bytes.NewReader([]byte(line("SNWD", 80)+line("TMAX", 57)+line("TMIN", -34)+line("SNWD", 120))), "x.dly", Options{})
	require.NoError(t, err)
	assert.Len(t, s.Snow, 31)
	assert.Equal(t, 12.0, s.Snow[30])
}
