// Package locale tells the window's toolkit which languages the user reads. It
// replaces the module of the same path, which takes the C of the locale
// C.UTF-8 for a language, so that the toolkit reports an error when any command
// starts. go.mod names the replacement.
package locale

import (
	"os"
	"strings"

	"golang.org/x/text/language"
)

// GetLocales returns the languages of the user's locale, the preferred one
// first, as IETF BCP 47 tags. What is no language is left out.
func GetLocales() ([]string, error) {
	var out []string
	for name := range strings.SplitSeq(setting(), ":") {
		if i := strings.IndexAny(name, ".@"); i >= 0 { // the encoding and the variant
			name = name[:i]
		}
		tag := strings.ReplaceAll(name, "_", "-")
		if _, err := language.Parse(tag); err == nil {
			out = append(out, tag)
		}
	}
	return out, nil
}

// GetLocale returns the preferred language, empty where there is none.
func GetLocale() (string, error) {
	if all, _ := GetLocales(); len(all) > 0 {
		return all[0], nil
	}
	return "", nil
}

// setting is the user's locale, or list of locales, from the environment
// variables in the order that gettext reads them.
func setting() string {
	locale := ""
	for _, name := range [...]string{"LC_ALL", "LC_MESSAGES", "LANG"} {
		if locale = os.Getenv(name); locale != "" {
			break
		}
	}
	if list := os.Getenv("LANGUAGE"); list != "" && locale != "C" && locale != "POSIX" {
		return list
	}
	return locale
}
