import fc from 'fast-check'
import type { Geometry } from 'geojson'
import { describe, expect, it } from 'vitest'
import { uuid7 } from '../../../geo/model/uuid.ts'
import { tick } from '../../../geo/store/clock.ts'
import { fromEwkb, toEwkb } from '../../../geo/store/ewkb.ts'
import { statementsOf } from '../../../geo/store/migrate.ts'
import { stacksOf } from '../../../geo/store/undo.ts'

describe('uuid7', () => {
  // RFC 9562 appendix A.6: 017F22E2-79B0-7CC3-98C4-DC0C0C07398F is of 2022-02-22T19:22:22.000Z.
  it('gives the example of RFC 9562', () => {
    const random = Uint8Array.from([0x0c, 0xc3, 0x18, 0xc4, 0xdc, 0x0c, 0x0c, 0x07, 0x39, 0x8f])
    expect(uuid7(Date.UTC(2022, 1, 22, 19, 22, 22), random)).toBe('017f22e2-79b0-7cc3-98c4-dc0c0c07398f')
  })
})

describe('tick', () => {
  it('never goes back and never stands still, whatever the device’s clock does', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 4e12 }), { minLength: 2 }), (times) => {
        let last: string | null = null
        for (const time of times) {
          const next = tick(last, time, 'd')
          if (last !== null) expect(next > last).toBe(true)
          last = next
        }
      }),
      { seed: 3 },
    )
  })
})

describe('stacksOf', () => {
  const step = (id: string, undoes: string | null = null) => ({ id, label: id, undoes })
  const ids = (steps: ReturnType<typeof step>[]) => {
    const { undo, redo } = stacksOf(steps)
    return [undo.map((s) => s.id), redo.map((s) => s.id)]
  }
  it('moves steps between the stacks', () => {
    expect(ids([step('a'), step('b'), step('u', 'b')])).toEqual([['a'], ['u']])
    expect(ids([step('a'), step('b'), step('u', 'b'), step('r', 'u')])).toEqual([['a', 'r'], []])
    expect(ids([step('a'), step('b'), step('u', 'b'), step('r', 'u'), step('v', 'r')])).toEqual([['a'], ['v']])
    expect(ids([step('a'), step('u', 'a'), step('c')])).toEqual([['c'], []])
  })
})

describe('statementsOf', () => {
  it('parts a script outside quotes and comments', () => {
    expect(statementsOf(`select ';'; -- a; b\nselect $x$ one; two $x$;\n select "a;b" ;`)).toEqual([
      `select ';'`,
      '-- a; b\nselect $x$ one; two $x$',
      'select "a;b"',
    ])
  })
})

describe('EWKB', () => {
  const number = fc.double({ noNaN: true, noDefaultInfinity: true })
  const position = fc.tuple(number, number)
  const line = fc.array(position, { minLength: 2, maxLength: 5 })
  const rings = fc.array(line, { minLength: 1, maxLength: 3 })
  const simple: fc.Arbitrary<Geometry> = fc.oneof(
    position.map((coordinates): Geometry => ({ type: 'Point', coordinates })),
    line.map((coordinates): Geometry => ({ type: 'LineString', coordinates })),
    rings.map((coordinates): Geometry => ({ type: 'Polygon', coordinates })),
    line.map((coordinates): Geometry => ({ type: 'MultiPoint', coordinates })),
    rings.map((coordinates): Geometry => ({ type: 'MultiLineString', coordinates })),
    fc
      .array(rings, { minLength: 1, maxLength: 2 })
      .map((coordinates): Geometry => ({ type: 'MultiPolygon', coordinates })),
  )
  it('carries every double bit for bit', () => {
    fc.assert(
      fc.property(simple, (geometry) => {
        const back = fromEwkb(toEwkb(geometry))
        expect(back).toEqual(geometry)
        expect(Object.is(JSON.stringify(back), JSON.stringify(geometry)) || toEwkb(back) === toEwkb(geometry)).toBe(
          true,
        )
      }),
      { seed: 4 },
    )
  })
  // PostGIS manual, ST_AsEWKB: SELECT ST_AsEWKB(ST_GeomFromText('POLYGON((0 0,0 1,1 1,1 0,0 0))',4326)) (C).
  it('writes what PostGIS writes', () => {
    const unit: Geometry = {
      type: 'Polygon',
      coordinates: [
        [
          [0, 0],
          [0, 1],
          [1, 1],
          [1, 0],
          [0, 0],
        ],
      ],
    }
    const zero = '0000000000000000'
    const one = '000000000000f03f'
    const ring = [zero, zero, zero, one, one, one, one, zero, zero, zero].join('')
    expect(toEwkb(unit)).toBe(`0103000020e61000000100000005000000${ring}`)
  })
})
