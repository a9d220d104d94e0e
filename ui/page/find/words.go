package find

// labels are what a query's parts are called on the page.
var labels = map[string]string{"most": "Max fillers", "gauge": "Max gauge", "wait": "Wait", "list": "Answers",
	"jumps": "Jumps", "attacks": "Attacks in the jump", "fillers": "Fillers", "not": "Fillers"}
