package batch

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// By hand: an interval goes with its value, what is not known has no row, a comma in a name stays quoted.
func TestTidyRows(t *testing.T) {
	columns := []string{"station", "source", "status", "why", "name", "days", "spring_0c_record_10", "spring_0c_record_10_low", "spring_0c_record_10_high"}
	got, err := tidyRows(CSV, columns, []byte(`X1,a.dly,done,,"Nowhere, XX",400,05-12,05-09,05-16`))
	require.NoError(t, err)
	assert.Equal(t, "X1,a.dly,status,done,,\nX1,a.dly,name,\"Nowhere, XX\",,\nX1,a.dly,days,400,,\nX1,a.dly,spring_0c_record_10,05-12,05-09,05-16", string(got))
	got, err = tidyRows(JSONLines, columns, []byte(`{"station":"X1","source":"a.dly","status":"done","why":null,"name":"Nowhere","days":400,"spring_0c_record_10":"05-12","spring_0c_record_10_low":"05-09","spring_0c_record_10_high":null}`))
	require.NoError(t, err)
	assert.Equal(t, `{"station":"X1","source":"a.dly","item":"status","value":"done","low":null,"high":null}
{"station":"X1","source":"a.dly","item":"name","value":"Nowhere","low":null,"high":null}
{"station":"X1","source":"a.dly","item":"days","value":400,"low":null,"high":null}
{"station":"X1","source":"a.dly","item":"spring_0c_record_10","value":"05-12","low":"05-09","high":null}`, string(got))
	_, err = tidyRows(CSV, columns, []byte(`a,"b`))
	assert.Error(t, err)
}
