package site_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"frostward/climate/site"
	"frostward/testdata/bench/siteprior"
)

// loadRecords reads the open records beside the repository, or skips.
func loadRecords(t *testing.T) []siteprior.Record {
	dir := filepath.Join("..", "..", "..", "shared", "data")
	if _, err := os.Stat(filepath.Join(dir, "near", "pairs.csv")); err != nil {
		t.Skip("no records beside the repository: ", err)
	}
	r, err := siteprior.Load(dir)
	require.NoError(t, err)
	return r
}

// The program's tables are those that the records give, to what their figures show.
func TestPriorTablesAreFitted(t *testing.T) {
	records := loadRecords(t)
	same, elsewhere := siteprior.Fit(records, siteprior.Record{})
	for _, r := range records {
		if r.Kind == "same" || r.Kind == "pair" {
			t.Logf("%-24s %2d seasons, rise %5.0f, habit %+.2f: %6.3f night %.2f", r.Name, r.Own.Seasons, r.Place.Rise, r.Own.Habit, r.Own.Coef, r.Own.Night)
		}
	}
	ours, others := site.Tables()
	for _, x := range []site.Table{same, elsewhere} {
		t.Logf("Mean %.3f\nPerV %.3f\nPerC %.3f\nPerZ %.3f\nPerZ2 %.3f\nSD %.3f\nCorr %.3f\nNight %.3f", x.Mean, x.PerV, x.PerC, x.PerZ, x.PerZ2, x.SD, x.Corr, x.Night)
	}
	for _, x := range []struct{ want, got site.Table }{{same, ours}, {elsewhere, others}} {
		for i := range x.want.Mean {
			require.InDelta(t, x.want.Mean[i], x.got.Mean[i], 0.006)
			require.InDelta(t, x.want.PerV[i], x.got.PerV[i], 0.006)
			require.InDelta(t, x.want.PerC[i], x.got.PerC[i], 0.006)
			require.InDelta(t, x.want.PerZ[i], x.got.PerZ[i], 0.006)
			require.InDelta(t, x.want.PerZ2[i], x.got.PerZ2[i], 0.006)
			require.InDelta(t, x.want.SD[i], x.got.SD[i], 0.006)
			require.InDeltaSlice(t, x.want.Corr[i][:], x.got.Corr[i][:], 0.01)
		}
		require.InDeltaSlice(t, x.want.Night[:], x.got.Night[:], 0.006)
	}
}
