package site

import (
	"os"
	"strconv"
	"time"

	"tarepage/internal/unit"
)

// programMade is a day before which nobody has this program. A clock that shows an earlier one is
// wrong, as that of a computer whose battery is empty, and is not believed.
var programMade = unit.Day{Year: 2026, Month: 11, Day: 20}

// Today is the day by the computer's clock, or by SOURCE_DATE_EPOCH where that is set
// (reproducible-builds.org/specs/source-date-epoch). It is the zero value where the clock is wrong.
func Today() unit.Day {
	now := time.Now()
	if s, err := strconv.ParseInt(os.Getenv("SOURCE_DATE_EPOCH"), 10, 64); err == nil {
		now = time.Unix(s, 0).UTC()
	}
	day := unit.Day{Year: now.Year(), Month: int(now.Month()), Day: now.Day()}
	if programMade.After(day) {
		return unit.Day{}
	}
	return day
}
