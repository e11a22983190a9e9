//go:build edge

package live

import (
	"bytes"
	"io"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"github.com/pb33f/libopenapi"
	validator "github.com/pb33f/libopenapi-validator"
	"github.com/pb33f/libopenapi/datamodel"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// described is the API's description, read by a library of other people's.
var described = sync.OnceValues(func() (validator.Validator, error) {
	text, err := os.ReadFile(filepath.Join(folder, "site", "openapi.json"))
	if err != nil {
		return nil, err
	}
	doc, err := libopenapi.NewDocumentWithConfiguration(text, &datamodel.DocumentConfiguration{
		BasePath:            filepath.Join(folder, "site"),
		FileFilter:          []string{"design.schema.json", "report.schema.json"},
		AllowFileReferences: true,
	})
	if err != nil {
		return nil, err
	}
	v, errs := validator.NewValidator(doc)
	if len(errs) > 0 {
		return nil, errs[0]
	}
	return v, nil
})

func TestTheDescriptionIsOne(t *testing.T) {
	v, err := described()
	require.NoError(t, err)
	ok, wrong := v.ValidateDocument()
	for _, w := range wrong {
		t.Error(w.Message, w.Reason)
	}
	require.True(t, ok, "OpenAPI 3.1.0")
}

// The judge must be able to say no.
func TestTheDescriptionIsHeldTo(t *testing.T) {
	v, err := described()
	require.NoError(t, err)
	for name, test := range map[string]struct{ kind, body string }{
		"no report":          {"application/json", `{"drawoff": 1}`},
		"a level unheard of": {"application/json", strings.Replace(report(t), `"level": "look"`, `"level": "fine"`, 1)},
		"not JSON":           {"text/plain", "all is well"},
	} {
		asked, err := http.NewRequest("POST", "/api/check", strings.NewReader(demo()))
		require.NoError(t, err)
		asked.Header.Set("Content-Type", "application/json")
		answer := &http.Response{StatusCode: 200, Header: http.Header{"Content-Type": {test.kind}}, Body: io.NopCloser(bytes.NewReader([]byte(test.body)))}
		answer.Header.Set("Access-Control-Allow-Origin", "*")
		ok, _ := v.ValidateHttpResponse(asked, answer)
		assert.False(t, ok, name)
	}
}
