package preview

import (
	"fmt"
	"net/http"
	"net/textproto"
)

// Gate lets a request through only if a page of this very server, or a person,
// sent it. Judged in this order:
//
//   - Host must be localhost, 127.0.0.1 or [::1] with our port, to the letter:
//     another name that leads here was pointed here by somebody else (DNS
//     rebinding).
//   - Origin, where there is one, must be the address under which it was asked.
//     Not another of our own names either: who else listens at that one isn't
//     known.
//   - Sec-Fetch-Site, where there is one, must say that the request comes from
//     here or from a person (W3C Fetch Metadata: "same-origin" or "none"). Pages
//     at other ports of this machine count as "same-site" and are refused.
//   - Only GET and HEAD: there is nothing here to be changed.
//
// No answer, refusals included, has a header that lets another origin read it.
func Gate(port int, next http.Handler) http.Handler {
	own := map[string]bool{
		fmt.Sprintf("localhost:%d", port): true,
		fmt.Sprintf("127.0.0.1:%d", port): true,
		fmt.Sprintf("[::1]:%d", port):     true,
	}
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		h.Set("Content-Security-Policy", "frame-ancestors 'none'")
		h.Set("Referrer-Policy", "no-referrer")
		switch {
		case !own[r.Host]:
			http.Error(w, "not served under this name", http.StatusForbidden)
		case !only(r.Header, "Origin", "http://"+r.Host):
			http.Error(w, "not for pages from elsewhere", http.StatusForbidden)
		case !only(r.Header, "Sec-Fetch-Site", "same-origin", "none"):
			http.Error(w, "not for pages from elsewhere; type the address yourself", http.StatusForbidden)
		case r.Method != http.MethodGet && r.Method != http.MethodHead:
			h.Set("Allow", "GET, HEAD")
			http.Error(w, "only for reading", http.StatusMethodNotAllowed)
		default:
			next.ServeHTTP(w, r)
		}
	})
}

// only says whether a header is missing, or is there once with one of the values.
func only(h http.Header, key string, values ...string) bool {
	got, there := h[textproto.CanonicalMIMEHeaderKey(key)]
	if !there {
		return true
	}
	for _, v := range values {
		if len(got) == 1 && got[0] == v {
			return true
		}
	}
	return false
}
