package edge

import "drawoff/pipeline/tokens"

// HandleJSON is Handle for the worker, which passes text: a Request in, an
// Answer out, each a JSON object.
func HandleJSON(request string) string {
	q, ok := readRequest(request)
	if !ok {
		return problem(500, "adapter", "The worker passed on something that is not a request.").json()
	}
	return Handle(q).json()
}

func readRequest(text string) (q Request, ok bool) {
	r := tokens.NewReader(text, 1)
	ok = r.Members(r.Next(), func(name string, t tokens.Token) bool {
		switch name {
		case "method":
			return t.Take(&q.Method)
		case "path":
			return t.Take(&q.Path)
		case "origin":
			return t.Take(&q.Origin)
		case "type":
			return t.Take(&q.Type)
		case "coding":
			return t.Take(&q.Coding)
		case "accept":
			return t.Take(&q.Accept)
		case "body":
			return t.Take(&q.Body)
		case "garbled":
			q.Garbled = t.Text == "true"
			return t.Kind == tokens.Bool
		case "id":
			return t.Take(&q.ID)
		case "came":
			return t.Take((*string)(&q.Came))
		case "kept":
			return t.Take(&q.Kept)
		}
		return false
	})
	return q, ok && r.Next().Kind == tokens.End
}

func (a Answer) json() string {
	var o, headers tokens.Object
	if a.Do != "" {
		o.Text("do", string(a.Do))
		o.Text("key", a.Key)
		o.Words("value", a.Value)
		return o.String()
	}
	o.Int("status", a.Status)
	for _, h := range a.Headers {
		headers.Text(h.Name, h.Value)
	}
	o.Raw("headers", headers.String())
	o.Words("body", a.Body)
	return o.String()
}
