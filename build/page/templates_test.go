package page

import (
	"errors"
	"fmt"
	"maps"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wardian/themes"
)

// Own templates are judged by the names of functions that themes knows, and filled
// with those that stand here.
func TestTheFunctionsOfTemplates(t *testing.T) {
	assert.Equal(t, themes.Functions(), slices.Sorted(maps.Keys(functions)))
}

// A fault of an own template that comes up where no error can be returned is the
// error of the page; any other panic goes on.
func TestAFaultGetsOutOfAPage(t *testing.T) {
	fault := &themes.Fault{File: "frame.html", Message: "no"}
	pages := withFaults([]Page{
		{Make: func() ([]byte, error) { panic(faulty(fmt.Errorf("make it: %w", fault))) }},
		{Make: func() ([]byte, error) { panic(faulty(errors.New("ours"))) }},
		{Make: func() ([]byte, error) { return []byte("words"), nil }},
	})
	data, err := pages[0].Make()
	require.ErrorIs(t, err, fault)
	assert.Nil(t, data)
	assert.PanicsWithValue(t, "page: ours", func() { _, _ = pages[1].Make() })
	data, err = pages[2].Make()
	require.NoError(t, err)
	assert.Equal(t, "words", string(data))
}
