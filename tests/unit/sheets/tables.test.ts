import { describe, expect, it } from 'vitest'
import { goesToo } from '../../../src/sheets/ground/goesToo.ts'
import { byCrop, standingOf } from '../../../src/sheets/growing/standingOf.ts'
import { patchMeasured } from '../../../src/sheets/state/shown.ts'

const record = (id: string, more: object = {}) => ({ id, extra: {}, ...more })

describe('what goes with a record', () => {
  const kinds = [
    { kind: 'beds', refers: [{ field: 'field', to: 'fields' }] },
    { kind: 'rows', refers: [{ field: 'bed', to: 'beds' }] },
    {
      kind: 'plantings',
      refers: [
        { field: 'row', to: 'rows' },
        { field: 'bed', to: 'beds' },
      ],
    },
    { kind: 'picks', refers: [{ field: 'planting', to: 'plantings' }] },
  ]
  const records = new Map([
    ['picks', [record('k1', { planting: 'p1' }), record('k2', { planting: 'p2' }), record('k3', { planting: 'p3' })]],
    ['plantings', [record('p1', { row: 'r1' }), record('p2', { bed: 'b1' }), record('p3', { row: 'r2' })]],
    ['rows', [record('r1', { bed: 'b1' }), record('r2', { bed: 'b2' })]],
    ['beds', [record('b1', { field: 'f1' }), record('b2', { field: 'f2' })]],
  ])

  it('is all that stands on it, at however many removes', () => {
    const too = goesToo(kinds, records, [{ kind: 'fields', id: 'f1' }])
    expect(Object.fromEntries(too)).toEqual({ beds: 1, rows: 1, plantings: 2, picks: 2 })
    expect(Object.fromEntries(goesToo(kinds, records, [{ kind: 'rows', id: 'r2' }]))).toEqual({
      plantings: 1,
      picks: 1,
    })
    expect(goesToo(kinds, records, [{ kind: 'picks', id: 'k1' }]).size).toBe(0)
  })
})

describe('what stands', () => {
  const piece = (id: string, crop_name: string, length_m: number, n = 0) => ({
    id,
    n,
    crop: crop_name,
    crop_name,
    variety_name: 'any',
    family: 'any',
    set_out: '2026-05-01',
    climbs: true,
    held: n === 0,
    length_m,
  })
  const standing = standingOf(
    [piece('p1', 'tomato', 7), piece('p1', 'tomato', 3, 1), piece('p2', 'tomato', 5), piece('p3', 'leek', 20)],
    new Map([['p1', 'b1']]),
  )

  it('adds the held and unheld pieces of a planting up', () => {
    expect(standing.map(({ id, bed, lengthM }) => [id, bed, lengthM])).toEqual([
      ['p1', 'b1', 10],
      ['p2', null, 5],
      ['p3', null, 20],
    ])
  })

  it('adds plantings up by crop, the longest first', () => {
    expect(byCrop(standing).map(({ crop, plantings, lengthM }) => [crop, plantings, lengthM])).toEqual([
      ['leek', 1, 20],
      ['tomato', 2, 15],
    ])
  })
})

describe('measures after a step', () => {
  const bed = (id: string, area_m2: number) => ({
    id,
    field: 'f',
    name: id,
    area_m2,
    length_m: 1,
    width_m: 1,
    bearing_deg: 0,
    row_m: 0,
    support_m: 0,
    climbing_m: 0,
    unheld_m: 0,
  })

  it('are changed in place, taken away, and put at the end', () => {
    const after = patchMeasured(
      { fields: [], beds: [bed('a', 1), bed('b', 2), bed('c', 3)] },
      { fields: [], beds: [bed('b', 20), bed('d', 4)], goneBeds: ['a'], goneFields: [] },
    )
    expect(after.beds.map(({ id, area_m2 }) => [id, area_m2])).toEqual([
      ['b', 20],
      ['c', 3],
      ['d', 4],
    ])
  })
})
