package walkaround

import (
	"strings"
	"unicode/utf8"
)

// spanishPrivates are private phrases in Spanish. Captions have them with their accents or without.
var spanishPrivates = []private{
	{"me llamo", byName, "me llamo pat"},
	{"mi nombre es", byName, "mi nombre es pat"},
	{"pregunte por", byName, "pregunte por pat"},
	{"pregunten por", byName, "pregunten por pat"},
	{"pregunta por", byName, "pregunta por pat"},
	{"llame a", byHello, "llame a pat"},
	{"llámame", byHello, "llámame"},
	{"llámeme", byHello, "llámeme"},
	{"llámenos", byHello, "llámenos"},
	{"llámennos", byHello, "llámennos"},
	{"llámenme", byHello, "llámenme"},
	{"márcame", byHello, "márcame"},
	{"márqueme", byHello, "márqueme"},
	{"márquenos", byHello, "márquenos"},
	{"mándame", byHello, "mándame un mensaje"},
	{"mándeme", byHello, "mándeme un mensaje"},
	{"escríbame", byHello, "escríbame"},
	{"me marca", byHello, "me marca a la oficina"},
	{"me llama", byHello, "me llama a la oficina"},
	{"buenos días", byHello, "buenos días a todos"},
	{"buenas tardes", byHello, "buenas tardes a todos"},
	{"qué onda", byHello, "qué onda raza"},
	{"qué tal", byHello, "qué tal amigos"},
	{"hola a todos", byHello, "hola a todos"},
	{"hola amigos", byHello, "hola amigos"},
	{"bienvenidos", byHello, "bienvenidos otra vez"},
	{"gracias por ver", byHello, "gracias por ver"},
	{"no me cite", unsure, "no me cite"},
	{"no me cites", unsure, "no me cites"},
	{"no me citen", unsure, "no me citen"},
	{"no me quote", unsure, "no me quote"},
	{"entre nosotros", unsure, "aquí entre nosotros"},
	{"entre nos", unsure, "aquí entre nos"},
	{"no lo ponga", unsure, "eso no lo ponga"},
	{"no lo pongas", unsure, "eso no lo pongas"},
	{"no lo publique", unsure, "no lo publique"},
	{"no lo publiques", unsure, "no lo publiques"},
	{"no le diga", unsure, "no le diga al cliente"},
	{"no le digas", unsure, "no le digas al cliente"},
	{"código es", byCode, "el código es el de siempre"},
	{"código de la puerta", byCode, "el código de la puerta"},
	{"código del portón", byCode, "el código del portón"},
	{"clave es", byCode, "la clave es la de siempre"},
	{"clave del", byCode, "la clave del candado"},
	{"contraseña", byCode, "la contraseña está en la pared"},
	{"combinación del", byCode, "la combinación del candado"},
	{"nos costó", byPaid, "nos costó mucho"},
	{"me costó", byPaid, "me costó mucho"},
	{"pagamos", byPaid, "pagamos demasiado"},
	{"yo pagué", byPaid, "yo pagué demasiado"},
	{"pagué por", byPaid, "pagué por este mucho"},
	{"nos salió en", byPaid, "nos salió en mucho"},
	{"lo compramos en", byPaid, "lo compramos en muy poco"},
	{"lo agarramos en", byPaid, "lo agarramos en muy poco"},
	{"dueño anterior", byOwner, "el dueño anterior pat"},
	{"antiguo dueño", byOwner, "el antiguo dueño pat"},
	{"el dueño era", byOwner, "el dueño era pat"},
	{"era de don", byOwner, "era de don pat"},
	{"era del señor", byOwner, "era del señor pat"},
	{"señor", byOwner, "el señor pat"},
	{"señora", byOwner, "la señora pat"},
	{"doña", byOwner, "doña pat"},
	{"vive en", byOwner, "vive en el cerro"},
	{"vive por", byOwner, "vive por el cerro"},
	{"vendimos a", byOwner, "se lo vendimos a pat"},
	{"vendido a", byOwner, "vendido a pat"},
	{"apartado para", byOwner, "apartado para pat"},
}

var withoutAccents = strings.NewReplacer("á", "a", "é", "e", "í", "i", "ó", "o", "ú", "u", "ñ", "n")

// bothWays are phrases with their accents and without.
func bothWays(list []private) (out []private) {
	for _, p := range list {
		out = append(out, p)
		if bare := withoutAccents.Replace(p.phrase); bare != p.phrase {
			out = append(out, private{bare, p.reason, withoutAccents.Replace(p.example)})
		}
	}
	return out
}

// spanishDigitsOf is how many digits of a telephone number a word is, with or without accents.
func spanishDigitsOf(word string) int {
	if n := spanishDigits[word]; n > 0 || isASCII(word) {
		return n
	}
	return spanishDigits[withoutAccents.Replace(word)]
}

func isASCII(word string) bool {
	for i := range len(word) {
		if word[i] >= utf8.RuneSelf {
			return false
		}
	}
	return true
}

// spanishDigits is how many digits of a telephone number a word is, by the word without accents.
var spanishDigits = func() map[string]int {
	out := map[string]int{}
	for _, w := range strings.Fields("cero uno dos tres cuatro cinco seis siete ocho nueve") {
		out[w] = 1
	}
	for _, w := range strings.Fields("diez once doce trece catorce quince dieciseis diecisiete dieciocho diecinueve veinte veintiuno veintidos veintitres " +
		"veinticuatro veinticinco veintiseis veintisiete veintiocho veintinueve treinta cuarenta cincuenta sesenta setenta ochenta noventa") {
		out[w] = 2
	}
	return out
}()

// spanishPair reports whether two digits of a telephone number begin at token i as "cuarenta y dos".
func (h *hearing) spanishPair(i int) bool {
	return spanishDigitsOf(h.word(i)) == 2 && strings.HasSuffix(h.word(i), "nta") && h.is(i+1, "y") && spanishDigitsOf(h.word(i+2)) == 1
}
