package address

import "strings"

// Relative gives the link from one site path to another: "../index.html".
func Relative(from, to string) string {
	up := 0
	for {
		folder, rest, deeper := strings.Cut(from, "/")
		if !deeper {
			break
		}
		if same, toRest, ok := strings.Cut(to, "/"); ok && up == 0 && same == folder {
			to = toRest
		} else {
			up++
		}
		from = rest
	}
	return strings.Repeat("../", up) + to
}

// Absolute gives the full address of a site path. site is the address of the
// site, with its last slash; the front page is the site's address itself.
func Absolute(site, path string) string {
	if path == Front() {
		return site
	}
	return site + path
}
