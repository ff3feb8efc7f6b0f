package survival

import (
	"os/exec"
	"strconv"
	"strings"
	"testing"
)

// members of both arms, one after the other in turn.
func millionMembers(n int, whole bool) []Member {
	arms := million(n, whole)
	var members []Member
	for i := range arms[0] {
		for g := range arms {
			members = append(members, Member{Subject: arms[g][i], Group: g})
		}
	}
	return members
}

// BenchmarkMillionAgainstR: product limits of two arms with limits, and the log-rank
// test between them, of one million subjects, on whole days and on continuous times.
// Where Rscript and its survival package are there, R does the same first
// (testdata/million.R, survfit and survdiff) in the same minute on the same machine,
// and the ratio is printed. The project wants 100 on whole days, 15 on continuous
// times. Run it alone: go test ./build/survival -run xxx -bench MillionAgainstR
func BenchmarkMillionAgainstR(b *testing.B) {
	for _, kind := range []string{"whole", "continuous"} {
		b.Run(kind, func(b *testing.B) {
			members := millionMembers(1_000_000, kind == "whole")
			var r float64
			if path, err := exec.LookPath("Rscript"); err == nil {
				out, err := exec.Command(path, "--vanilla", "testdata/million.R", "1000000", kind).Output()
				if err == nil {
					r, err = strconv.ParseFloat(strings.TrimSpace(string(out)), 64)
				}
				if err != nil {
					b.Logf("R said %q (%v), so there is no ratio", out, err)
				}
			} else {
				b.Log("no Rscript on this machine, so there is no ratio")
			}
			for b.Loop() {
				Compare(members)
			}
			if r > 0 {
				ours := b.Elapsed().Seconds() / float64(b.N)
				b.ReportMetric(r, "s/R")
				b.ReportMetric(r/ours, "times-R")
			}
		})
	}
}
