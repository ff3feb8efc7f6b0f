package build

import (
	"errors"
	"sync"

	"wardian/content"
	"wardian/content/source"
	"wardian/themes"
)

// fitted makes a page, and makes a finding of a fault of the grower's own
// templates: only when a page is filled is it seen whether they fit.
func fitted(d *content.Diary, fill func() ([]byte, error)) func() ([]byte, error) {
	if len(d.Style.Templates) == 0 {
		return fill
	}
	return func() ([]byte, error) {
		data, err := fill()
		var fault *themes.Fault
		if errors.As(err, &fault) {
			_, finding := d.Style.Fault(fault)
			return nil, &Unfit{finding}
		}
		return data, err
	}
}

// unfits collects what is wrong with pages that are made side by side. A fault of
// one template comes up on many pages, and is told once.
type unfits struct {
	mu     sync.Mutex
	told   map[string]bool
	report *source.Report
}

// take takes an error that is a finding.
func (u *unfits) take(err error) bool {
	var unfit *Unfit
	if !errors.As(err, &unfit) {
		return false
	}
	u.mu.Lock()
	defer u.mu.Unlock()
	if line := unfit.finding.Line(); !u.told[line] {
		if u.told == nil {
			u.told = map[string]bool{}
		}
		u.told[line] = true
		u.report.Add(nil, unfit.finding)
	}
	return true
}
