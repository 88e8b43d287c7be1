import fc from 'fast-check'
import type { Geometry, Polygon } from 'geojson'
import { describe, expect, it } from 'vitest'
import type { AnyRecord } from '../../../geo/model/kind.ts'
import type { Metres } from '../../../geo/plane/lonLat.ts'
import { planeAbout } from '../../../geo/plane/plane.ts'
import type { Edit } from '../../../src/desk/door.ts'
import { areaM2, lineLengthM } from '../../../src/draw/measureShape.ts'
import { alongside } from '../../../src/draw/ops/alongside.ts'
import { type EditGeometry, geometryOf, shapeOf } from '../../../src/draw/shape.ts'
import { copyEdits } from '../../../src/sheets/ground/acts/copyPlan.ts'
import { joined, mergeEdits, referencesTo } from '../../../src/sheets/ground/acts/mergePlan.ts'
import { shareOut } from '../../../src/sheets/ground/acts/shareOut.ts'
import { shareStretch } from '../../../src/sheets/ground/acts/shareStretch.ts'
import { splitEdits, splitInto } from '../../../src/sheets/ground/acts/splitPlan.ts'
import { ridersOf } from '../../../src/sheets/ground/ridersOf.ts'
import { keepStretches } from '../../../src/sheets/state/keepStretches.ts'

const plane = planeAbout([15.64, 46.33])
const polygon = (...corners: Metres[]) => geometryOf({ type: 'Polygon', parts: [corners] }, plane)
const line = (...corners: Metres[]) => geometryOf({ type: 'LineString', parts: [corners] }, plane)
const record = (id: string, of: object): AnyRecord => ({ id, extra: {}, ...of })
let made = 0
const newId = () => `new ${++made}`
const added = (edits: readonly Edit[], kind: string) =>
  edits.flatMap((edit) => (edit.do === 'add' && edit.kind === kind ? [edit.record] : []))
const changed = (edits: readonly Edit[], id: string) =>
  edits.flatMap((edit) => (edit.do === 'change' && edit.id === id ? [edit.to] : []))
const area = (geometry: unknown) => areaM2(shapeOf(geometry as EditGeometry, plane))

// A bed 20 m by 1 m with a row along its middle, cut 12 m from its western end.
const bed = record('b', { field: 'f', name: 'B7', note: null, geom: polygon([0, 0], [20, 0], [20, 1], [0, 1]) })
const row = record('r', { bed: 'b', name: 'B7 middle', side: 'middle', geom: line([0, 0.5], [20, 0.5]) })
const cut = line([12, -1], [12, 2])
if (cut.type !== 'LineString') throw new Error(cut.type)
const into = splitInto(bed.geom!, cut, plane)
const choices = { keeper: 0, names: ['B7b'], cutPlantings: true, dressAll: true }
const planting = (id: string, of: object) =>
  record(id, {
    variety: 'v',
    set_out: '2025-05-01',
    plants: null,
    row: 'r',
    bed: null,
    from_m: null,
    to_m: null,
    ...of,
  })
const standing = (plantings: AnyRecord[] = []) => ({
  beds: [],
  rows: [row],
  plantings,
  dressings: [record('d', { bed: 'b', material: 'compost' })],
})

describe('a bed that is split', () => {
  it('keeps its record on the larger part, makes a bed of the other, and cuts the row between them', () => {
    const edits = splitEdits('beds', bed, into, standing(), { plane, newId, choices })
    const [other] = added(edits, 'beds')
    expect(other).toMatchObject({ name: 'B7b', field: 'f' })
    expect(area(other!.geom) + area(changed(edits, 'b')[0]!.geom)).toBeCloseTo(20, 6)
    expect(area(changed(edits, 'b')[0]!.geom)).toBeCloseTo(12, 6)
    const [piece] = added(edits, 'rows')
    expect(piece).toMatchObject({ bed: other!.id, side: 'middle' })
    expect(lineLengthM(shapeOf(piece!.geom as EditGeometry, plane).parts[0]!)).toBeCloseTo(8, 6)
    expect(changed(edits, 'r')[0]).toMatchObject({ bed: 'b' })
    expect(added(edits, 'dressings')).toMatchObject([{ bed: other!.id, material: 'compost' }])
  })
  it('keeps it on the part that is chosen', () => {
    const edits = splitEdits('beds', bed, into, standing(), { plane, newId, choices: { ...choices, keeper: 1 } })
    expect(area(changed(edits, 'b')[0]!.geom)).toBeCloseTo(8, 6)
    // The row's longer piece stays the same row, in what is now another bed.
    expect(changed(edits, 'r')[0]!.bed).toBe(added(edits, 'beds')[0]!.id)
  })
  it('sends plantings where they stand, in metres from their piece’s start', () => {
    const plantings = [
      planting('west', { from_m: 2, to_m: 9 }),
      planting('east', { from_m: 13, to_m: 20 }),
      planting('both', { from_m: 4, to_m: 14, plants: 100 }),
    ]
    const edits = splitEdits('beds', bed, into, standing(plantings), { plane, newId, choices })
    const piece = added(edits, 'rows')[0]!.id
    expect(changed(edits, 'west')).toEqual([{ row: 'r', from_m: 2, to_m: 9 }])
    expect(changed(edits, 'east')[0]).toMatchObject({
      row: piece,
      from_m: expect.closeTo(1, 6),
      to_m: expect.closeTo(8, 6),
    })
    expect(changed(edits, 'both')[0]).toMatchObject({ row: 'r', from_m: 4, to_m: expect.closeTo(12, 6), plants: 80 })
    expect(added(edits, 'plantings')).toMatchObject([
      { row: piece, from_m: expect.closeTo(0, 6), to_m: expect.closeTo(2, 6), plants: 20 },
    ])
    const whole = splitEdits('beds', bed, into, standing(plantings), {
      plane,
      newId,
      choices: { ...choices, cutPlantings: false },
    })
    expect(added(whole, 'plantings')).toEqual([])
    expect(changed(whole, 'both')[0]).toMatchObject({ row: 'r', from_m: 4, to_m: expect.closeTo(12, 6) })
  })
  it('shares a planting told of the bed alone, or sends it where its stretch lies', () => {
    const loose = [
      planting('all', { row: null, bed: 'b', plants: 50 }),
      planting('end', { row: null, bed: 'b', from_m: 14, to_m: 18 }),
    ]
    const edits = splitEdits('beds', bed, into, standing(loose), { plane, newId, choices })
    const other = added(edits, 'beds')[0]!.id
    expect(changed(edits, 'all')[0]).toEqual({ bed: 'b', plants: 30 })
    expect(added(edits, 'plantings')).toMatchObject([{ bed: other, plants: 20 }])
    expect(changed(edits, 'end')[0]).toMatchObject({
      bed: other,
      from_m: expect.closeTo(2, 5),
      to_m: expect.closeTo(6, 5),
    })
  })
  describe('with a planting told of a stretch of the bed alone', () => {
    // By hand: 20 m cut at 5 m; 2–12 m lies 3 m on one side and 7 m on the other.
    const at = (angle: number) => {
      const turn = ([x, y]: Metres): Metres => [
        x * Math.cos(angle) - y * Math.sin(angle),
        x * Math.sin(angle) + y * Math.cos(angle),
      ]
      return {
        bed: record('b', {
          field: 'f',
          name: 'B7',
          geom: polygon(
            ...(
              [
                [0, 0],
                [20, 0],
                [20, 1],
                [0, 1],
              ] as Metres[]
            ).map(turn),
          ),
        }),
        across: line(
          ...(
            [
              [5, -1],
              [5, 2],
            ] as Metres[]
          ).map(turn),
        ),
        along: line(
          ...(
            [
              [-1, 0.25],
              [21, 0.25],
            ] as Metres[]
          ).map(turn),
        ),
      }
    }
    const stretch = planting('s', { row: null, bed: 'b', from_m: 2, to_m: 12, plants: 100 })
    const split = (of: AnyRecord, by: Geometry, plantings: AnyRecord[], cutPlantings: boolean) => {
      if (by.type !== 'LineString') throw new Error(by.type)
      const told = { ...standing(plantings), rows: [] }
      return splitEdits('beds', of, splitInto(of.geom!, by, plane), told, {
        plane,
        newId,
        choices: { ...choices, cutPlantings },
      })
    }
    it('makes it one in each part, its plants by their metres, however the bed lies', () => {
      // East, north, just off north on either side, and south-east: a bed's metres run from its western end.
      for (const degrees of [0, 90, 89.9999, -89.9999, -40]) {
        const { bed: of, across } = at((degrees * Math.PI) / 180)
        const edits = split(of, across, [stretch], true)
        expect(changed(edits, 's')).toEqual([
          { bed: 'b', from_m: expect.closeTo(0, 5), to_m: expect.closeTo(7, 5), plants: 70 },
        ])
        expect(added(edits, 'plantings')).toMatchObject([
          {
            bed: added(edits, 'beds')[0]!.id,
            row: null,
            from_m: expect.closeTo(2, 5),
            to_m: expect.closeTo(5, 5),
            plants: 30,
          },
        ])
      }
    })
    it('keeps it whole, shorter, where most of it stands, when it is not to be cut', () => {
      const { bed: of, across } = at(0)
      const edits = split(of, across, [stretch], false)
      expect(added(edits, 'plantings')).toEqual([])
      expect(changed(edits, 's')).toEqual([{ bed: 'b', from_m: expect.closeTo(0, 5), to_m: expect.closeTo(7, 5) }])
    })
    it('counts from the bed’s ends where only one end is told', () => {
      const { bed: of, across } = at(0)
      const edits = split(of, across, [planting('s', { ...stretch, id: 's', from_m: null, to_m: 8, plants: 8 })], true)
      expect(changed(edits, 's')[0]).toMatchObject({
        from_m: expect.closeTo(0, 5),
        to_m: expect.closeTo(5, 5),
        plants: 5,
      })
      expect(added(edits, 'plantings')).toMatchObject([
        { bed: 'b', from_m: expect.closeTo(0, 5), to_m: expect.closeTo(3, 5), plants: 3 },
      ])
    })
    it('gives it the same stretch in parts that lie side by side, its plants by their widths', () => {
      const { bed: of, along } = at(0)
      const edits = split(of, along, [stretch], true)
      expect(changed(edits, 's')).toEqual([
        { bed: 'b', from_m: expect.closeTo(2, 5), to_m: expect.closeTo(12, 5), plants: 75 },
      ])
      expect(added(edits, 'plantings')).toMatchObject([
        { from_m: expect.closeTo(2, 5), to_m: expect.closeTo(12, 5), plants: 25 },
      ])
    })
    it('tells no stretch in a part that is shorter than it is wide: its metres would run across', () => {
      const { bed: of } = at(0)
      const edits = split(of, line([19.5, -1], [19.5, 2]), [planting('s', { ...stretch, id: 's', to_m: 20 })], true)
      expect(added(edits, 'plantings')).toMatchObject([{ from_m: null, to_m: null, plants: 3 }])
    })
  })
  it('loses no metre and no plant of any planting, wherever the row is cut', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0.5, max: 9.5, noNaN: true }), { minLength: 1, maxLength: 4 }),
        fc.double({ min: 0, max: 9, noNaN: true }),
        fc.double({ min: 0.5, max: 10, noNaN: true }),
        fc.nat(500),
        (at, from, size, plants) => {
          const stops = [0, ...new Set(at)].sort((a, b) => a - b)
          const pieces = [...stops, 10].slice(1).map((toM, n) => ({ id: `p${n}`, fromM: stops[n]!, toM }))
          const to = Math.min(10, from + size)
          const edits = shareStretch(planting('p', { from_m: from, to_m: to, plants }), pieces, true, newId)
          const all = edits.map(
            (edit) => (edit.do === 'add' ? edit.record : edit.do === 'change' ? edit.to : {}) as Record<string, number>,
          )
          const metres = all.reduce((sum, one) => sum + one.to_m! - one.from_m!, 0)
          // Stretches of less than a centimetre at a cut are the rounding of places.
          expect(Math.abs(metres - (to - from))).toBeLessThan(0.011 * pieces.length)
          expect(all.reduce((sum, one) => sum + (one.plants ?? plants), 0)).toBe(plants)
          for (const one of all) expect(one.from_m!).toBeGreaterThanOrEqual(0)
        },
      ),
      { seed: 31, numRuns: 300 },
    )
    fc.assert(
      fc.property(
        fc.nat(1000),
        fc.array(fc.double({ min: 0.1, max: 50, noNaN: true }), { minLength: 1, maxLength: 6 }),
        (count, weights) => {
          const shares = shareOut(count, weights)
          expect(shares.reduce<number>((sum, n) => sum + n!, 0)).toBe(count)
          for (const share of shares) expect(share!).toBeGreaterThanOrEqual(0)
        },
      ),
      { seed: 32, numRuns: 200 },
    )
  })
})

it('a field that is split gives each bed to the part that its middle lies in', () => {
  const field = record('f', { name: 'Home', geom: polygon([-5, -5], [30, -5], [30, 30], [-5, 30]) })
  const across = line([-10, 10], [40, 10])
  if (across.type !== 'LineString') throw new Error(across.type)
  const north = record('n', { field: 'f', name: 'N', geom: polygon([0, 15], [20, 15], [20, 16], [0, 16]) })
  const edits = splitEdits(
    'fields',
    field,
    splitInto(field.geom!, across, plane),
    { ...standing(), beds: [bed, north] },
    { plane, newId, choices: { ...choices, names: ['Homeb'] } },
  )
  const other = added(edits, 'fields')[0]!
  expect([changed(edits, 'b'), changed(edits, 'n')].flat()).toEqual([{ field: other.id }])
})

describe('beds that are merged', () => {
  const held = (one: AnyRecord) => ({ kind: 'beds' as const, id: one.id, geometry: one.geom!, record: one })
  const next = record('c', { field: 'f', name: 'B8', note: 'stony', geom: polygon([0, 1], [20, 1], [20, 2], [0, 2]) })
  it('leave one bed of the whole ground, with all that referred to the other, and its note', () => {
    const things = [held({ ...bed, note: 'wet' }), held(next)]
    const { shape, gapM } = joined(things, plane)
    expect(gapM).toBeNull()
    const referring = [
      { reference: { kind: 'rows', field: 'bed' }, records: [record('s', { bed: 'c' })] },
      { reference: { kind: 'picks', field: 'bed' }, records: [record('k', { bed: 'c' })] },
    ]
    const edits = mergeEdits(things, 0, shape, referring, plane)
    expect(changed(edits, 's')).toEqual([{ bed: 'b' }])
    expect(changed(edits, 'k')).toEqual([{ bed: 'b' }])
    expect(changed(edits, 'b')[0]).toMatchObject({ note: 'wet\nstony' })
    expect(area(changed(edits, 'b')[0]!.geom)).toBeCloseTo(40, 3)
    expect(edits.at(-1)).toEqual({ do: 'remove', kind: 'beds', id: 'c' })
  })
  it('are told how far apart they lie where they do not touch', () => {
    const far = record('e', { geom: polygon([0, 1.4], [20, 1.4], [20, 2], [0, 2]) })
    expect(joined([held(bed), held(far)], plane).gapM).toBeCloseTo(0.4, 6)
  })
  it('are referred to by every kind that the model says', () => {
    const kinds = referencesTo('beds').map(({ kind, field }) => `${kind}.${field}`)
    expect(kinds.sort()).toEqual(['dressings.bed', 'picks.bed', 'plantings.bed', 'rows.bed', 'stock_lots.bed'])
  })
})

it('copies count names on, each with its own rows, as far apart as was typed', () => {
  const thing = { kind: 'beds' as const, id: 'b', geometry: bed.geom!, record: bed }
  const shifts = alongside(shapeOf(bed.geom as Polygon, plane).parts[0]!, 2, { betweenM: 0.4 }, -1)
  const edits = copyEdits([thing], [row], shifts, () => ['B6', 'B7', 'B12'], plane, newId)
  const beds = added(edits, 'beds')
  expect(beds.map(({ name }) => name)).toEqual(['B13', 'B14'])
  expect(added(edits, 'rows').map((one) => [one.bed, one.name])).toEqual(
    beds.map(({ id, name }) => [id, `${name} middle`]),
  )
  const [, , [, top]] = shapeOf(beds[1]!.geom as Polygon, plane).parts[0] as unknown as [Metres, Metres, Metres]
  expect(top).toBeCloseTo(1 + 2.8, 6)
})

describe('what stands in a bed', () => {
  const support = (id: string, ...corners: Metres[]) => record(id, { geom: line(...corners) })
  it('is its rows, the supports that lie in it for the most part, and its trees', () => {
    const found = ridersOf(
      [{ id: 'b', geometry: bed.geom as Polygon }],
      {
        rows: [row, record('other', { bed: 'c', geom: row.geom })],
        supports: [
          support('in', [0, 0.2], [20, 0.2]),
          support('half out', [15, 0.5], [40, 0.5]),
          support('across', [10, -5], [10, 6]),
        ],
        trees: [
          record('t', { geom: geometryOf({ type: 'Point', parts: [[[3, 0.5]]] }, plane) }),
          record('u', { geom: geometryOf({ type: 'Point', parts: [[[3, 5]]] }, plane) }),
        ],
      },
      plane,
    )
    expect(found.map(({ id }) => id)).toEqual(['r', 'in', 't'])
  })
  const whole = { kind: 'rows' as const, id: 'r', geometry: row.geom! }
  const plantings = [
    planting('in', { from_m: 0, to_m: 5 }),
    planting('over', { from_m: 5, to_m: 12 }),
    planting('beyond', { from_m: 9, to_m: 12 }),
    planting('whole', {}),
  ]
  it('ends where its shortened row ends, but is never moved wholly out of it', () => {
    const short = { ...whole, geometry: line([0, 0.5], [8, 0.5]) }
    expect(keepStretches([whole], [short], plantings, plane)).toEqual([
      { do: 'change', kind: 'plantings', id: 'over', to: { from_m: 5, to_m: expect.closeTo(8, 6) } },
    ])
  })
  it('stays where it is on the ground where the row is changed at its start', () => {
    const short = { ...whole, geometry: line([4, 0.5], [20, 0.5]) }
    expect(
      keepStretches([whole], [short], plantings, plane).map((edit) => edit.do === 'change' && [edit.id, edit.to]),
    ).toEqual([
      ['in', { from_m: 0, to_m: expect.closeTo(1, 6) }],
      ['over', { from_m: expect.closeTo(1, 6), to_m: expect.closeTo(8, 6) }],
      ['beyond', { from_m: expect.closeTo(5, 6), to_m: expect.closeTo(8, 6) }],
    ])
    const moved = { ...whole, geometry: line([4, 3], [24, 3]) }
    expect(keepStretches([whole], [moved], plantings, plane)).toEqual([])
  })
})
