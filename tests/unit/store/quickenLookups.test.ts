import { describe, expect, it } from 'vitest'
import { quickenLookups } from '../../../geo/store/template/quickenLookups.ts'

const call = () => 0
/** Names in the engine's memory, each at its place. */
const NAMES = ['area', 'pg_finfo_area', '_PG_init', 'nothing', 'pg_finfo_nothing', 'hash', 'pg_finfo_hash']

/** An engine that has linked a library with `area` and `hash`, of which it has the latter itself; tells what its loader is asked. */
function engine() {
  const asked: string[] = []
  const env: Record<string, unknown> = {
    area: call,
    pg_finfo_area: call,
    _PG_init: call,
    hash: call,
    pg_finfo_hash: call,
    _dlsym_js: (_: number, at: number) => {
      asked.push(NAMES[at]!)
      return 7
    },
  }
  const starting = {
    instantiateWasm: (_: unknown, done: (instance: { exports: object }, module: unknown) => void) =>
      done({ exports: { hash: call } }, null),
  } as Parameters<typeof quickenLookups>[0]
  const quicken = quickenLookups(starting)
  starting.instantiateWasm({ env } as never, () => undefined)
  const lookup = (name: string) => (env._dlsym_js as (...of: number[]) => number)(1, NAMES.indexOf(name), 0)
  const stands = () =>
    quicken({ UTF8ToString: (at) => NAMES[at]!, addFunction: (linked) => (linked === call ? 42 : -1) })
  return { asked, lookup, stands }
}

describe('a function that Postgres looks up', () => {
  it('is found among the linked names, and so is what tells of it', () => {
    const { asked, lookup, stands } = engine()
    stands()
    expect([lookup('area'), lookup('pg_finfo_area')]).toEqual([42, 42])
    expect(asked).toEqual([])
  })

  it('is asked of the loader where it is not linked, is no function for SQL, or one that the engine has itself', () => {
    const { asked, lookup, stands } = engine()
    stands()
    const others = ['_PG_init', 'nothing', 'pg_finfo_nothing', 'hash']
    expect(others.map(lookup)).toEqual([7, 7, 7, 7])
    expect(asked).toEqual(others)
  })

  it('is asked of the loader until the engine stands', () => {
    const { asked, lookup } = engine()
    expect(lookup('area')).toBe(7)
    expect(asked).toEqual(['area'])
  })
})
