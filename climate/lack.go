package climate

import "fmt"

// lackWords says what a month lacks.
func lackWords(month string, missing, inARow int) string {
	if missing == inARow {
		return fmt.Sprintf("%s: %d days missing in a row", month, missing)
	}
	return fmt.Sprintf("%s: %d days missing, %d in a row", month, missing, inARow)
}
