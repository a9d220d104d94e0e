package assets

// Version is the program's version, the one that FyneApp.toml gives to
// packages.
const Version = "0.1.0"
