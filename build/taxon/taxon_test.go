package taxon

import (
	"html/template"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// The names and how they are set follow "Writing Plant Names" (Penn State
// Arboretum, 2020) and the Huntington's guide (2017), as quoted there.
func TestNamesAreSetByTheCustomOfHerbaria(t *testing.T) {
	i := func(s string) string { return `<i class="taxon">` + s + `</i>` }
	for name, want := range map[string]string{
		"Begonia amphioxus":               i("Begonia") + " " + i("amphioxus"),
		"Hoya cf. callistophylla":         i("Hoya") + " cf.&nbsp;" + i("callistophylla"),
		"Begonia aff. chlorosticta":       i("Begonia") + " aff.&nbsp;" + i("chlorosticta"),
		"Anoectochilus sp.":               i("Anoectochilus") + " sp.",
		"Begonia 'Fog Lamp'":              i("Begonia") + " ‘Fog Lamp’",
		"Begonia × tuberhybrida":          i("Begonia") + " × " + i("tuberhybrida"),
		"Begonia x tuberhybrida":          i("Begonia") + " × " + i("tuberhybrida"),
		"×Philageria veitchii":            "×" + i("Philageria") + " " + i("veitchii"),
		"Nephrolepis exaltata var. bosto": i("Nephrolepis") + " " + i("exaltata") + " var. " + i("bosto"),
		`Hoya sp. "Sulawesi 12"`:          i("Hoya") + " sp. &#34;Sulawesi 12&#34;",
		"Paphiopedilum Sorel grex":        i("Paphiopedilum") + " Sorel grex",
		"<b>Hoya</b>":                     i("&lt;b&gt;Hoya&lt;/b&gt;"),
		"":                                "",
	} {
		assert.Equal(t, template.HTML(want), Name(name), name)
	}
}

func TestShortNamesKeepWhatTellsThemApart(t *testing.T) {
	for name, want := range map[string]string{
		"Hoya callistophylla":     "H. callistophylla",
		"Hoya cf. callistophylla": "H. cf. callistophylla",
		"Begonia 'Fog Lamp'":      "B. ‘Fog Lamp’",
		"Anoectochilus sp.":       "Anoectochilus sp.",
		"Hoya":                    "Hoya",
		"hoya of some kind":       "hoya of some kind",
	} {
		assert.Equal(t, want, ShortWords(name), name)
	}
	for word, want := range map[string]string{
		"schlechtendaliana": "schlechtenda-liana", "suborbiculata": "suborbi-cu-lata", "callistophylla": "callisto-phylla",
		"siariae": "siariae", "": "", "Ærøskøbingensis": "Ærøskøbingensis", "xyz'rstv-bcdfgh": "xyz'rstv-bcdfgh",
	} {
		assert.Equal(t, want, strings.ReplaceAll(soften(word), "\u00ad", "-"))
		assert.Equal(t, word, strings.ReplaceAll(soften(word), "\u00ad", ""), "no letter is lost")
	}
	assert.Equal(t, template.HTML(`<i class="taxon">G.</i> <i class="taxon">schlechtenda`+"\u00ad"+`liana</i>`), ShortName("Goodyera schlechtendaliana"))
	assert.Equal(t, "Philageria", Genus("×Philageria veitchii"))
	assert.Equal(t, "", Genus("a mystery"))
}
