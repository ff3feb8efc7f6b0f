package main

import (
	"fmt"
	"time"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"wardian/content"
	"wardian/content/measure"
)

func flagNames(cmd *cobra.Command) []string {
	var names []string
	cmd.Flags().VisitAll(func(f *pflag.Flag) { names = append(names, f.Name) })
	return names
}

// onFlag adds --on, the day that a command takes for today.
func onFlag(cmd *cobra.Command, on *string) {
	cmd.Flags().StringVar(on, "on", "", "")
}

// dayOptions say which day reading takes for today: --on, or the calendar's in
// the diary's time zone.
func dayOptions(on string) (content.Options, error) {
	if on == "" {
		return content.Options{Today: measure.NoDay, Now: time.Now()}, nil
	}
	day, err := onDay(on)
	return content.Options{Today: day}, err
}

// onDay reads --on; without it, it is the calendar's day where the command runs.
func onDay(on string) (measure.Day, error) {
	if on == "" {
		return measure.DayOf(time.Now()), nil
	}
	day, trouble := measure.ParseDay(on)
	if trouble != nil {
		return measure.NoDay, wrongUse{message: fmt.Sprintf("--on %s: %s", on, trouble.Message), next: "write a day such as --on 2026-04-06"}
	}
	return day, nil
}
