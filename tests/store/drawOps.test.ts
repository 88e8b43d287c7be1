import { afterAll, beforeAll, expect, it } from 'vitest'
import type { Metres } from '../../geo/plane/lonLat.ts'
import type { Database } from '../../geo/store/database.ts'
import { areaM2 } from '../../src/draw/measureShape.ts'
import { joinAreas } from '../../src/draw/ops/joinAreas.ts'
import { offsetArea, offsetLine } from '../../src/draw/ops/offset.ts'
import { shareInside } from '../../src/draw/ops/shareInside.ts'
import { splitArea } from '../../src/draw/ops/splitArea.ts'
import { type Corners, polygonsOf, type Shape } from '../../src/draw/shape.ts'
import { openTestDatabase, SERVER_ABSENT } from './harness.ts'

// Against GEOS through PostGIS (X): ST_Split, ST_Union, ST_OffsetCurve, ST_Buffer and ST_Intersection of the same
// shapes in the plane, as text with every digit that a double has.

/** A repeatable run of numbers from 0 to below 1 (Park & Miller's minimal standard). */
function numbers(seed: number): () => number {
  let state = seed
  return () => {
    state = (state * 48_271) % 2_147_483_647
    return state / 2_147_483_647
  }
}
const line = (corners: Corners) => `linestring(${corners.map(([x, y]) => `${x} ${y}`).join(',')})`
const rings = (parts: readonly Corners[]) =>
  `(${parts.map((ring) => `(${[...ring, ring[0]!].map(([x, y]) => `${x} ${y}`).join(',')})`).join(',')})`
const text = (shape: Shape) => `multipolygon(${polygonsOf(shape).map(rings).join(',')})`
const polygon = (...parts: Corners[]): Shape => ({ type: 'Polygon', parts })

/** An outline of n corners about a place that does not cross itself. */
function outline(next: () => number, [x, y]: Metres, n: number): Corners {
  const lean = next() * 6
  return Array.from({ length: n }, (_, i): Metres => {
    const [a, r] = [lean + (2 * Math.PI * i) / n, 10 + 40 * next()]
    return [x + r * Math.cos(a), y + r * Math.sin(a)]
  })
}

let db: Database
const one = async <T extends object>(sql: string, values: readonly unknown[]) =>
  (await db.rows<T>(sql, [...values]))[0]!
beforeAll(async () => {
  if (!SERVER_ABSENT) db = await openTestDatabase([-2.31, 52.19])
})
afterAll(() => db?.close())

it.skipIf(SERVER_ABSENT)('cuts an area into the pieces that ST_Split does', async () => {
  const next = numbers(31)
  for (let n = 0; n < 40; n++) {
    const at: Metres = [(next() - 0.5) * 3000, (next() - 0.5) * 3000]
    const shape = polygon(outline(next, at, 3 + Math.floor(next() * 8)))
    const hole =
      n % 3 === 0
        ? [outline(next, at, 5).map(([x, y]): Metres => [at[0] + (x - at[0]) / 9, at[1] + (y - at[1]) / 9])]
        : []
    const way = [0, 1, 2, 3]
      .slice(0, 2 + (n % 3))
      .map((): Metres => [at[0] + (next() - 0.5) * 160, at[1] + (next() - 0.5) * 160])
    const pieces = splitArea([...shape.parts, ...hole], way).map((parts) => areaM2({ type: 'Polygon', parts }))
    const { areas } = await one<{ areas: number[] }>(
      `select array_agg(st_area(d.geom) order by st_area(d.geom) desc) as areas
       from st_dump(st_split($1::geometry, $2::geometry)) d`,
      [`polygon${rings([...shape.parts, ...hole])}`, line(way)],
    )
    expect(pieces).toHaveLength(areas.length)
    pieces.forEach((area, i) => {
      expect(Math.abs(area - areas[i]!)).toBeLessThan(1e-7)
    })
  }
})

it.skipIf(SERVER_ABSENT)('joins areas as ST_Union does', async () => {
  const next = numbers(32)
  for (let n = 0; n < 30; n++) {
    const at: Metres = [(next() - 0.5) * 3000, (next() - 0.5) * 3000]
    const areas = [0, 1, 2].map(() => polygon(outline(next, [at[0] + next() * 60, at[1] + next() * 60], 6)))
    const joined = joinAreas(areas)
    const { area, apart } = await one<{ area: number; apart: number }>(
      `with u as (select st_union(array[$1::geometry, $2::geometry, $3::geometry]) as g)
       select st_area(g) as area, st_hausdorffdistance(st_boundary(g), st_boundary($4::geometry)) as apart from u`,
      [...areas.map(text), text(joined)],
    )
    expect(Math.abs(areaM2(joined) / area - 1)).toBeLessThan(1e-9)
    expect(apart).toBeLessThan(1e-6)
  }
})

it.skipIf(SERVER_ABSENT)(
  'draws a parallel as ST_OffsetCurve does, and an outline within or about another as ST_Buffer',
  async () => {
    const next = numbers(33)
    for (let n = 0; n < 30; n++) {
      let [x, y, way] = [(next() - 0.5) * 3000, (next() - 0.5) * 3000, next() * 6]
      const run: Metres[] = [[x, y]]
      for (let k = 0; k < 2 + (n % 4); k++) {
        way += (next() - 0.5) * 2
        const size = 10 + 20 * next()
        x += size * Math.cos(way)
        y += size * Math.sin(way)
        run.push([x, y])
      }
      const offM = (next() - 0.5) * 3
      const off = offsetLine(run, offM)!
      const { apart } = await one<{ apart: number }>(
        `select st_hausdorffdistance(st_offsetcurve($1::geometry, $2, 'join=mitre mitre_limit=20'), $3::geometry) as apart`,
        [line(run), offM, line(off)],
      )
      expect(apart).toBeLessThan(1e-6)

      const ring = outline(next, [x, y], 4 + (n % 6))
      const sizeM = (next() - 0.5) * 4
      const shape = offsetArea(polygon(ring), sizeM)!
      // Not by ST_SymDifference: borders that all but coincide are what it fails upon.
      const buffered = await one<{ area: number; apart: number }>(
        `with b as (select st_buffer($1::geometry, $2, 'join=mitre mitre_limit=20') as g)
       select st_area(g) as area, st_hausdorffdistance(st_boundary(g), st_boundary($3::geometry)) as apart from b`,
        [text(polygon(ring)), sizeM, text(shape)],
      )
      expect(Math.abs(areaM2(shape) - buffered.area)).toBeLessThan(1e-5)
      expect(buffered.apart).toBeLessThan(1e-5)
    }
  },
)

it.skipIf(SERVER_ABSENT)('tells the share of a line that lies in an area as ST_Intersection does', async () => {
  const next = numbers(34)
  for (let n = 0; n < 40; n++) {
    const at: Metres = [(next() - 0.5) * 3000, (next() - 0.5) * 3000]
    const ring = outline(next, at, 7)
    const run = [0, 1, 2].map((): Metres => [at[0] + (next() - 0.5) * 120, at[1] + (next() - 0.5) * 120])
    const { share } = await one<{ share: number }>(
      'select st_length(st_intersection($1::geometry, $2::geometry)) / st_length($1::geometry) as share',
      [line(run), text(polygon(ring))],
    )
    expect(shareInside(run, [ring])).toBeCloseTo(share, 9)
  }
})
