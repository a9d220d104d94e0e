module fyne.io/systray

go 1.26.0
