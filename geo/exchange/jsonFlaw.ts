/** Where a text stops being JSON (RFC 8259). Line and column count from 1. */
export interface JsonFlaw {
  readonly line: number
  readonly column: number
  readonly reason: string
}

const NUMBER = /-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?/y
const WORD = /[+-]?[A-Za-z_]+/y
const SPACE = /[ \t\r\n]*/y
const STRING = /"(?:[^"\\\p{Cc}]|[\u007f-\u009f]|\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4}))*"/uy

/** The first place where a text breaks JSON's grammar, or null where it is JSON. Said the same by every engine. */
export function jsonFlaw(text: string): JsonFlaw | null {
  const open: ('[' | '{')[] = []
  let at = 0
  let wants: 'value' | 'first value' | 'key' | 'first key' | 'next' = 'value'
  const take = (pattern: RegExp): string | null => {
    pattern.lastIndex = at
    const match = pattern.exec(text)
    if (!match) return null
    at = pattern.lastIndex
    return match[0]
  }
  for (;;) {
    take(SPACE)
    if (wants === 'next' && open.length === 0)
      return at < text.length ? flawAt(text, at, 'goes on behind its end') : null
    if (at >= text.length) return flawAt(text, at, 'ends too early')
    const char = text[at]!
    if (wants === 'next') {
      if (char === ',') wants = open.at(-1) === '[' ? 'value' : 'key'
      else if (char === (open.at(-1) === '[' ? ']' : '}')) open.pop()
      else return flawAt(text, at, `has ${JSON.stringify(char)} where a comma or the end of a list belongs`)
      at += 1
      continue
    }
    if (wants === 'key' || wants === 'first key') {
      if (char === '}' && wants === 'first key') {
        open.pop()
        at += 1
        wants = 'next'
        continue
      }
      if (take(STRING) === null) return flawAt(text, at, `has ${JSON.stringify(char)} where a name in quotes belongs`)
      take(SPACE)
      if (text[at] !== ':') return flawAt(text, at, 'lacks a colon behind a name')
      at += 1
      wants = 'value'
      continue
    }
    if (char === ']' && wants === 'first value') {
      open.pop()
      at += 1
      wants = 'next'
    } else if (char === '[' || char === '{') {
      open.push(char)
      at += 1
      wants = char === '[' ? 'first value' : 'first key'
    } else {
      const start = at
      const word = take(WORD)
      const known = word === 'true' || word === 'false' || word === 'null'
      if (word !== null && !known) return flawAt(text, start, wordReason(word))
      if (word === null && take(STRING) === null && take(NUMBER) === null)
        return flawAt(
          text,
          at,
          char === '"'
            ? 'has a text that is not closed or holds a wrong escape'
            : `has ${JSON.stringify(char)} where a value belongs`,
        )
      wants = 'next'
    }
  }
}

function wordReason(word: string): string {
  const bare = word.replace(/^[+-]/, '').toLowerCase()
  return bare === 'nan' || bare.startsWith('inf')
    ? `has ${word}, which is no number that JSON knows: every coordinate must be finite`
    : `has ${word}, which JSON does not know`
}

function flawAt(text: string, at: number, reason: string): JsonFlaw {
  let line = 1
  let lineStart = 0
  for (let i = text.indexOf('\n'); i >= 0 && i < at; i = text.indexOf('\n', i + 1)) {
    line += 1
    lineStart = i + 1
  }
  return { line, column: at - lineStart + 1, reason }
}
