module github.com/jeandeaual/go-locale

go 1.26.0

require golang.org/x/text v0.25.0
