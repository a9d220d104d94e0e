module a/quiet

go 1.26
