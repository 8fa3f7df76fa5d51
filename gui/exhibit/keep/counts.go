// Package keep is what an exhibit writes down: how many visits there were on a day and
// how it went, the last exhibit file that was in order, and what became of the program
// when it crashed. Nothing is personal and nothing leaves the machine. A folder that
// cannot be written changes nothing for the visitors: Counts.Err says so to the keeper.
package keep

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"time"
)

// Day is the count of one day.
type Day struct {
	Date                     string // 2026-11-25, by the clock on the wall
	Visits, Breaks, Landings int
	Best                     float64 // of the landings, sea miles
}

// Counts is the file counts.csv: a line for each day.
type Counts struct {
	Err  error // why it could not be written the last time
	file string
	days []Day
}

const countsName = "counts.csv"

var header = []string{"date", "visits", "breaks", "landings", "best_nm"}

// mostDays is how many days are kept: ten years.
const mostDays = 3660

// OpenCounts reads the counts of a folder. A file that cannot be understood is put
// aside, not written over.
func OpenCounts(folder string) *Counts {
	c := &Counts{file: filepath.Join(folder, countsName)}
	days, err := readDays(c.file)
	switch {
	case err == nil:
		c.days = days
	case !errors.Is(err, fs.ErrNotExist):
		c.Err = errors.Join(err, os.Rename(c.file, c.file+".unread"))
	}
	return c
}

func readDays(file string) (days []Day, err error) {
	f, err := os.Open(file)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		return nil, err
	}
	for i, row := range rows {
		if i == 0 {
			continue
		}
		d := Day{Date: row[0]}
		var errs [4]error
		if len(row) != len(header) {
			return nil, fmt.Errorf("%s: line %d has %d entries, not %d", file, i+1, len(row), len(header))
		}
		d.Visits, errs[0] = strconv.Atoi(row[1])
		d.Breaks, errs[1] = strconv.Atoi(row[2])
		d.Landings, errs[2] = strconv.Atoi(row[3])
		d.Best, errs[3] = strconv.ParseFloat(row[4], 64)
		if err := errors.Join(errs[:]...); err != nil {
			return nil, fmt.Errorf("%s: line %d: %w", file, i+1, err)
		}
		days = append(days, d)
	}
	return days, nil
}

// Today is the count of a day.
func (c *Counts) Today(day time.Time) Day {
	date := day.Format(time.DateOnly)
	for _, d := range c.days {
		if d.Date == date {
			return d
		}
	}
	return Day{Date: date}
}

// change counts something and writes the file.
func (c *Counts) change(day time.Time, do func(*Day)) {
	d := c.Today(day)
	do(&d)
	found := false
	for i := range c.days {
		if c.days[i].Date == d.Date {
			c.days[i], found = d, true
		}
	}
	if !found {
		c.days = append(c.days, d)
	}
	if n := len(c.days) - mostDays; n > 0 {
		c.days = c.days[n:]
	}
	c.Err = c.write()
}

func (c *Counts) write() error {
	return replace(c.file, func(f *os.File) error {
		w := csv.NewWriter(f)
		rows := [][]string{header}
		for _, d := range c.days {
			rows = append(rows, []string{
				d.Date, strconv.Itoa(d.Visits), strconv.Itoa(d.Breaks), strconv.Itoa(d.Landings), strconv.FormatFloat(d.Best, 'f', 1, 64),
			})
		}
		return w.WriteAll(rows)
	})
}

// replace writes a file anew in one go: what stood there stays if that cannot be done.
func replace(file string, write func(*os.File) error) error {
	if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
		return err
	}
	part := file + ".part"
	f, err := os.Create(part)
	if err != nil {
		return err
	}
	if err := errors.Join(write(f), f.Sync(), f.Close()); err != nil {
		os.Remove(part)
		return err
	}
	return os.Rename(part, file)
}

// Visited, Broke and Landed count.
func (c *Counts) Visited(day time.Time) { c.change(day, func(d *Day) { d.Visits++ }) }

// Broke counts something broken.
func (c *Counts) Broke(day time.Time) { c.change(day, func(d *Day) { d.Breaks++ }) }

// Landed counts a landing in cloud.
func (c *Counts) Landed(day time.Time, miles float64) {
	c.change(day, func(d *Day) {
		if d.Landings == 0 || miles < d.Best {
			d.Best = miles
		}
		d.Landings++
	})
}

// Best is the best landing of the day.
func (c *Counts) Best(day time.Time) (float64, bool) {
	d := c.Today(day)
	return d.Best, d.Landings > 0
}
