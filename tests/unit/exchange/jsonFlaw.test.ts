import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { jsonFlaw } from '../../../geo/exchange/jsonFlaw.ts'

const parses = (text: string) => {
  try {
    JSON.parse(text)
    return true
  } catch {
    return false
  }
}

describe('where a text stops being JSON', () => {
  it.each([
    ['{"a": [1, NaN]}', 1, 11, /NaN, which is no number/],
    ['{"a":\n  -Infinity}', 2, 3, /-Infinity, which is no number/],
    ['[1,\n 2,\n ,3]', 3, 2, /"," where a value belongs/],
    ['{"a": 1 "b": 2}', 1, 9, /where a comma/],
    ["{'a': 1}", 1, 2, /name in quotes/],
    ['{"a" 1}', 1, 6, /colon/],
    ['[1, 2', 1, 6, /too early/],
    ['', 1, 1, /too early/],
    ['{} {}', 1, 4, /goes on/],
    ['["a\nb"]', 1, 2, /text that is not closed/],
    ['[undefined]', 1, 2, /undefined, which JSON does not know/],
    ['[01]', 1, 3, /where a comma/],
    ['[.5]', 1, 2, /where a value belongs/],
  ])('%j', (text, line, column, reason) => {
    expect(jsonFlaw(text)).toMatchObject({ line, column, reason: expect.stringMatching(reason) })
  })

  // X: the engine's own JSON.parse on damaged JSON, seeded.
  it('finds a flaw exactly where JSON.parse refuses', () => {
    const damage = fc.record({
      at: fc.nat(200),
      drop: fc.integer({ min: 0, max: 2 }),
      put: fc.constantFrom(
        '',
        '"',
        ',',
        ':',
        '[',
        ']',
        '{',
        '}',
        'e',
        '-',
        '1',
        'null',
        ' ',
        '\\',
        '\u0001',
        '\u0085',
        'NaN',
      ),
    })
    fc.assert(
      fc.property(fc.json({ maxDepth: 4 }), damage, (text, { at, drop, put }) => {
        const from = at % (text.length + 1)
        const damaged = text.slice(0, from) + put + text.slice(from + drop)
        expect(jsonFlaw(damaged) === null).toBe(parses(damaged))
      }),
      { seed: 8259, numRuns: 5000 },
    )
  })
})
