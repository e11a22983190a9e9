package asjson

import "reflect"

// Whole is the type that is written.
var Whole = reflect.TypeFor[whole]()
