// Package glossary is the page that tells each word in use, with a picture of
// it. The words are those of timeline/words, the drawing that of ui/sheet.
package glossary
