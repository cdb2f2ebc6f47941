package showroom

import (
	"bytes"
	"crypto/sha256"
	_ "embed"
	"encoding/base64"
	"fmt"
	"slices"
	"strings"

	"golang.org/x/net/html"
)

//go:embed reload.js
var script string

//go:embed style.css
var style string

// hash is the source expression that lets one inline script or style pass a policy
// (CSP Level 3, 2.3.1).
func hash(text string) string {
	sum := sha256.Sum256([]byte(text))
	return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
}

// dress adds to a page the script that waits for the next version, and the panel at the top
// of its body. Its policies are widened to allow the two. Every other byte stays as it is.
func dress(page []byte, version string, panel []byte) []byte {
	var out bytes.Buffer
	waiter := fmt.Sprintf("<script data-version=%q>%s</script>", version, script)
	z := html.NewTokenizer(bytes.NewReader(page))
	for {
		kind := z.Next()
		if kind == html.ErrorToken {
			// The end, with a tag that was begun and not ended.
			out.Write(z.Raw())
			break
		}
		// A copy: reading the token's name writes over the raw bytes.
		raw := bytes.Clone(z.Raw())
		var tag string
		if kind == html.StartTagToken || kind == html.EndTagToken || kind == html.SelfClosingTagToken {
			name, _ := z.TagName()
			tag = string(name)
		}
		opens := kind != html.EndTagToken
		switch {
		case tag == "meta" && opens:
			if policy, ok := policyOf(z); ok {
				raw = []byte(`<meta http-equiv="Content-Security-Policy" content="` + html.EscapeString(admit(policy)) + `">`)
			}
			out.Write(raw)
		case tag == "head" && !opens:
			out.WriteString(waiter)
			waiter = ""
			out.Write(raw)
		case tag == "body" && opens:
			out.WriteString(waiter)
			waiter = ""
			out.Write(raw)
			out.Write(panel)
			panel = nil
		default:
			out.Write(raw)
		}
	}
	out.WriteString(waiter)
	out.Write(panel)
	return out.Bytes()
}

// policyOf reads the policy out of the meta element that the tokenizer has just read.
func policyOf(z *html.Tokenizer) (string, bool) {
	var policy string
	is := false
	for {
		key, value, more := z.TagAttr()
		switch string(key) {
		case "http-equiv":
			is = strings.EqualFold(strings.TrimSpace(string(value)), "Content-Security-Policy")
		case "content":
			policy = string(value)
		}
		if !more {
			return policy, is
		}
	}
}

// admit widens a policy to allow what the showroom adds to a page, and nothing else.
func admit(policy string) string {
	policy = widen(policy, hash(script), "script-src-elem", "script-src", "default-src")
	policy = widen(policy, hash(style), "style-src-elem", "style-src", "default-src")
	return widen(policy, "'self'", "connect-src", "default-src")
}

// widen adds a source to the directive that governs: the first of the names that the policy
// has (CSP Level 3, 6.8.3, the fallback list). It never widens default-src itself, but
// writes the more specific directive with the same sources. A policy without any of the
// names allows everything already.
func widen(policy, source string, names ...string) string {
	var parts []string
	for p := range strings.SplitSeq(policy, ";") {
		if p = strings.TrimSpace(p); p != "" {
			parts = append(parts, p)
		}
	}
	for _, name := range names {
		// If a directive is given twice, the first counts (CSP Level 3, 2.2.1).
		i := slices.IndexFunc(parts, func(p string) bool { return strings.EqualFold(strings.Fields(p)[0], name) })
		if i < 0 {
			continue
		}
		sources := slices.DeleteFunc(strings.Fields(parts[i])[1:], func(s string) bool { return strings.EqualFold(s, "'none'") })
		if allowsAll(sources) {
			return policy
		}
		if !slices.Contains(sources, source) {
			sources = append(sources, source)
		}
		if name == "default-src" {
			parts = append(parts, names[len(names)-2]+" "+strings.Join(sources, " "))
		} else {
			parts[i] = name + " " + strings.Join(sources, " ")
		}
		return strings.Join(parts, "; ")
	}
	return policy
}

// allowsAll reports whether every inline element passes. 'unsafe-inline' counts only without
// a hash or a nonce next to it, so adding a hash would stop the page's own scripts (CSP
// Level 3, 6.7.3.2).
func allowsAll(sources []string) bool {
	inline := false
	for _, s := range sources {
		s = strings.ToLower(s)
		if strings.HasPrefix(s, "'sha") || strings.HasPrefix(s, "'nonce-") || s == "'strict-dynamic'" {
			return false
		}
		inline = inline || s == "'unsafe-inline'"
	}
	return inline
}
