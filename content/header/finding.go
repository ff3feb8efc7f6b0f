package header

import (
	"wardian/content/format"
	"wardian/content/source"
)

// Fault makes a finding of a code, with the severity that the table of codes
// gives it. It panics where the table has no such code.
func Fault(code string, at source.Span, message, expected, hint string) source.Finding {
	severity := source.Error
	if format.CodeOf(code).Warning {
		severity = source.Warning
	}
	return source.Finding{Span: at, Severity: severity, Code: code, Message: message, Expected: expected, Hint: hint}
}
