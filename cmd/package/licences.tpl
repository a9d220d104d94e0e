{{- define "texts" -}}
{{- range . }}
{{ "=" | line }}
{{ .Name }} {{ .Version }} ({{ .LicenceType }})
{{ "=" | line }}

{{ licenceText . }}
{{ end -}}
{{- end -}}
The licences of what Wakeline is built of: modules and fonts. Made by
cmd/package/licences.sh; a test holds it to the modules of the program.
{{ template "texts" .Direct }}
{{- template "texts" .Indirect -}}
