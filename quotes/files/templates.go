package files

import "embed"

//go:embed templates
var templateFiles embed.FS

// FileNames lists the usual names of a job's files, required ones first.
var FileNames = []string{QuotesFile, BedsFile, DeliveryFile, MediaFile, SettingsFile}

// Templates gives the files of an empty job by name: every heading or setting,
// each explained in a comment, and an example commented out.
func Templates() map[string][]byte {
	out := make(map[string][]byte, len(FileNames))
	for _, name := range FileNames {
		b, err := templateFiles.ReadFile("templates/" + name)
		if err != nil {
			panic("quotes: " + err.Error()) // the files are part of the program and a test reads them
		}
		out[name] = b
	}
	return out
}
