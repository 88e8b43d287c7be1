import { describe, expect, it } from 'vitest'
import { USUAL_WEIGHTS, usualWeightsOf } from '../../../geo/model/usualWeights.ts'
import type { Rhythm } from '../../../src/desk/door.ts'
import { unitsFor } from '../../../src/sheets/picking/containersFor.ts'
import { byWords, dueWords } from '../../../src/sheets/picking/due.ts'
import { householdsIn } from '../../../src/sheets/picking/households.ts'
import { afterKey, asQuantity, type PadKey, quantityOf } from '../../../src/sheets/picking/numberPad.ts'
import { correctedPick, newPick, type PickTold, struckOut } from '../../../src/sheets/picking/pickEdits.ts'
import { isStoodBy, type PickPlace, placeMeant, seenFrom } from '../../../src/sheets/picking/pickPlace.ts'
import { settle } from '../../../src/sheets/picking/settle.ts'
import { isEven, leftOf, type ShareLine, sayPart, toggled } from '../../../src/sheets/picking/shareParts.ts'

describe('the number pad', () => {
  const type = (keys: string) => [...keys].reduce((typed, key) => afterKey(typed, key as PadKey), '')
  it.each([
    ['12', '12'],
    ['03', '3'],
    ['1½', '1.5'],
    ['½', '0.5'],
    ['1.5½', '1.5'],
    ['.25', '0.25'],
    ['1..5', '1.5'],
    ['12⌫', '1'],
    ['123456789', '1234567'],
  ])('makes of the keys %s the quantity %s', (keys, typed) => expect(type(keys)).toBe(typed))

  it('takes a comma for a point, and nothing that is no number', () => {
    expect(asQuantity('1,5')).toBe('1.5')
    expect(asQuantity('a2b')).toBe('2')
    expect(quantityOf('1.')).toBe(1)
    for (const nothing of ['', '0', '0.0', '.']) expect(quantityOf(nothing)).toBeNull()
  })
})

// shared reference list, section 2: Georgia's list (C2), Iowa Code 210.10 (C), Indiana IC 24-6-1-1 (C), New England
// Vegetable Guide table 15 (C); peppers from memory (M). The pound is 0.45359237 kg (NIST Handbook 44, appendix C; C).
describe('usual weights', () => {
  const told = (crop: string, unit = 'bushel') =>
    USUAL_WEIGHTS.filter((one) => one.crop === crop && one.unit === unit).map(({ lb, source }) => [
      lb,
      source.split(' ')[0],
    ])
  it.each([
    ['tomato', [[53, 'Georgia']]],
    ['sweet potato', [[55, 'Georgia']]],
    ['onion', [[57, 'Georgia']]],
    [
      'cucumber',
      [
        [48, 'Georgia'],
        [48, 'Iowa'],
      ],
    ],
    ['eggplant', [[33, 'Georgia']]],
    ['squash', [[40, 'Georgia']]],
    ['snap bean', [[30, 'Georgia']]],
    [
      'apple',
      [
        [40, 'Georgia'],
        [48, 'Iowa'],
        [42, 'Indiana'],
      ],
    ],
    ['spinach', [[20, 'Georgia']]],
    ['carrot', [[50, 'Iowa']]],
    ['beet', [[56, 'Iowa']]],
    [
      'pepper',
      [
        [25, 'from'],
        [30, 'from'],
      ],
    ],
  ])('of a bushel of %s are those of the lists', (crop, weights) => expect(told(crop)).toEqual(weights))

  it('of boxes are those of the New England guide', () => {
    expect(told('leek', 'box, ¾ bushel')).toEqual([[15, 'New']])
    expect(told('kale', 'box, 1¾ bushel')).toEqual([[20, 'New']])
    expect(told('cabbage', 'box, 1⅔ bushel')).toEqual([[50, 'New']])
    expect(USUAL_WEIGHTS).toHaveLength(19)
  })

  it('are found by the names that farms give crops', () => {
    expect(usualWeightsOf('Tomatoes').map(({ lb }) => lb)).toEqual([53])
    expect(usualWeightsOf('bush bean').map(({ lb }) => lb)).toEqual([30])
    expect(usualWeightsOf('Buckwheat')).toEqual([])
  })
})

describe('units that are offered', () => {
  const containers = [
    { unit: 'crate', kg: 10, crop: null, source: 'weighed' },
    { unit: 'crate', kg: 11, crop: 'tomato', source: 'weighed, tomato' },
    { unit: 'bushel', kg: 24.04, crop: 'tomato', source: 'list' },
  ]
  it('begin with what the crop was picked in last, and weigh what they weigh for it', () => {
    const offered = unitsFor(
      'tomato',
      containers,
      [
        { crop: 'leek', unit: 'g' },
        { crop: 'tomato', unit: 'kg' },
      ],
      'metric',
    )
    expect(offered.map(({ unit, kg }) => [unit, kg])).toEqual([
      ['kg', 1],
      ['crate', 11],
      ['bushel', 24.04],
      ['g', 0.001],
      ['lb', 0.45359237],
      ['oz', 0.45359237 / 16],
    ])
    expect(offered[1]!.source).toBe('weighed, tomato')
  })
  it('leave out what has no weight for the crop', () => {
    const units = unitsFor('leek', containers, [{ crop: 'leek', unit: 'bushel' }], 'us').map(({ unit }) => unit)
    expect(units).toEqual(['crate', 'lb', 'oz', 'kg', 'g'])
  })
})

describe('where the device stands', () => {
  const at = (crop: string, distanceM: number) => ({
    is: 'planting' as const,
    distanceM,
    planting: {
      planting: `${crop} ${distanceM}`,
      crop,
      cropName: crop,
      variety: 'any',
      bed: 'b',
      bedName: 'B',
      side: null,
    },
  })
  const meant = (near: readonly (PickPlace & { is: 'planting' })[], accuracyM: number) => {
    const place = placeMeant(near, accuracyM)
    return place?.is === 'planting' ? place.planting.planting : null
  }
  it('means the nearest planting where no other crop is as near as it is unsure', () => {
    expect(meant([at('tomato', 0.4), at('leek', 6)], 3)).toBe('tomato 0.4')
    expect(meant([at('tomato', 0.4), at('tomato', 1.5), at('leek', 6)], 3)).toBe('tomato 0.4')
  })
  it('means nothing by itself where it may be another crop, or nothing is near', () => {
    expect(meant([at('tomato', 0.4), at('leek', 1.5)], 3)).toBeNull()
    expect(meant([at('tomato', 40)], 3)).toBeNull()
    expect(meant([], 3)).toBeNull()
  })
})

describe('a place told before', () => {
  const HERE = { at: [15, 46] as const, accuracyM: 3 }
  const planting = (id: string, distanceM: number | null): PickPlace & { is: 'planting' } => ({
    is: 'planting',
    distanceM,
    planting: { planting: id, crop: 'c', cropName: 'c', variety: 'v', bed: 'b', bedName: 'B', side: null },
  })
  it('is seen from where the device is now, and no more where it is not among the nearest', () => {
    expect(seenFrom(planting('a', 0.3), [planting('b', 1), planting('a', 27)])).toEqual(planting('a', 27))
    expect(seenFrom(planting('a', 0.3), [planting('b', 1)])).toEqual(planting('a', null))
  })
  it('is stood by within an arm’s reach of what the position is unsure by', () => {
    expect(isStoodBy(planting('a', 7.9), HERE, null)).toBe(true)
    expect(isStoodBy(planting('a', 8.1), HERE, null)).toBe(false)
    expect(isStoodBy(planting('a', null), HERE, null)).toBe(false)
    const bed: PickPlace = { is: 'bed', bed: { id: 'b', name: 'B' } }
    expect([isStoodBy(bed, HERE, 'b'), isStoodBy(bed, HERE, 'c'), isStoodBy(bed, HERE, null)]).toEqual([
      true,
      false,
      false,
    ])
    // A degree of latitude is 111 km about here: 0.00005° is 5.6 m, 0.0001° 11.1 m.
    expect(isStoodBy({ is: 'spot', at: [15, 46.00005] }, HERE, null)).toBe(true)
    expect(isStoodBy({ is: 'spot', at: [15, 46.0001] }, HERE, null)).toBe(false)
  })
})

describe('shares', () => {
  const of = (...parts: (readonly [string, number])[]): ShareLine[] =>
    parts.map(([to, part]) => ({ to, part, use: null }))
  it('are even until parts are told, and never more than the pick by themselves', () => {
    let lines: readonly ShareLine[] = []
    for (const to of ['a', 'b', 'c']) lines = toggled(lines, to, null)
    expect(lines.map(({ part }) => part)).toEqual([1 / 3, 1 / 3, 1 / 3])
    expect(leftOf(lines)).toBe(0)
    expect(toggled(lines, 'b', null).map(({ to, part }) => [to, part])).toEqual([
      ['a', 0.5],
      ['c', 0.5],
    ])
  })
  it('told otherwise give the next what is left, and what is left is told', () => {
    expect(toggled(of(['a', 0.25]), 'b', null)[1]).toMatchObject({ to: 'b', part: 0.75 })
    expect(leftOf(of(['a', 0.25], ['b', 0.5]))).toBe(0.25)
    expect(leftOf(of(['a', 1], ['b', 0.5]))).toBe(-0.5)
    expect(isEven(of(['a', 0.25], ['b', 0.75]))).toBe(false)
    expect(sayPart(1 / 3)).toBe('⅓')
    expect(sayPart(0.15)).toBe('15 %')
  })
})

describe('a settlement', () => {
  // Worked by hand: Ana picked 10 + 4, had 6; Bor picked 6, had 8; 6 are not shared out.
  const settled = settle([
    { picker: 'Ana', to: 'Bor', use: 'kitchen', kg: 8 },
    { picker: 'Ana', to: null, use: null, kg: 6 },
    { picker: 'Bor', to: 'Ana', use: null, kg: 6 },
    { picker: null, to: 'Market', use: 'market', kg: 3 },
  ])
  it('sets what each picked against what each had', () => {
    expect(settled.accounts).toEqual([
      { name: 'Ana', pickedKg: 14, hadKg: 6, overKg: -8 },
      { name: 'Bor', pickedKg: 6, hadKg: 8, overKg: 2 },
      { name: 'Market', pickedKg: 0, hadKg: 3, overKg: 3 },
    ])
  })
  it('tells what nobody had and what nobody is told to have picked, and leaves nothing over', () => {
    expect([settled.totalKg, settled.notSharedKg, settled.untoldPickerKg]).toEqual([23, 6, 3])
    const had = settled.accounts.reduce((sum, { hadKg }) => sum + hadKg, 0)
    expect(had + settled.notSharedKg).toBe(settled.totalKg)
    expect(settled.uses).toEqual([
      { use: 'kitchen', kg: 8 },
      { use: null, kg: 6 },
      { use: 'market', kg: 3 },
    ])
  })
})

describe('a settlement by household', () => {
  const lines = [
    { picker: 'Ana', to: 'Mill', use: null, kg: 8 },
    { picker: 'Bor', to: 'Mill', use: null, kg: 6 },
    { picker: 'Bor', to: null, use: null, kg: 1 },
    { picker: 'Eva', to: 'Hill', use: null, kg: 5 },
    { picker: 'Eva', to: 'Mill', use: null, kg: 2 },
  ]
  it('counts whoever belongs to a household as it, so that what it picked and had stand on one line', () => {
    // By hand: the mill's two picked 8 + 6 + 1 and had 8 + 6 + 2, Eva's hill picked 7 and had 5.
    const { accounts, between } = settle(
      lines,
      new Map([
        ['Ana', 'Mill'],
        ['Bor', 'Mill'],
        ['Eva', 'Hill'],
      ]),
    )
    expect(accounts).toEqual([
      { name: 'Mill', pickedKg: 15, hadKg: 16, overKg: 1 },
      { name: 'Hill', pickedKg: 7, hadKg: 5, overKg: -2 },
    ])
    expect(between).toEqual([
      { picker: 'Mill', to: 'Mill', kg: 14 },
      { picker: 'Hill', to: 'Hill', kg: 5 },
      { picker: 'Hill', to: 'Mill', kg: 2 },
    ])
    // Without: five names, none of which nets.
    expect(settle(lines).accounts).toHaveLength(5)
  })
  it('is read from what a farm’s record tells beside its own fields, whatever stands there', () => {
    expect([...householdsIn({ households: { Ana: 'Mill', constructor: 'Hill', Bor: 3 } })]).toEqual([
      ['Ana', 'Mill'],
      ['constructor', 'Hill'],
    ])
    for (const households of [undefined, null, 'Mill', ['Mill']]) expect(householdsIn({ households }).size).toBe(0)
  })
})

describe('what is due', () => {
  const rhythm = { planting: 'p', crop: 'c', variety: 'v', bed: 'b', side: null, last: '2026-08-01' }
  const told = (sinceDays: number | null, pickDays: number, everyDays: number | null, by: Rhythm['by']): Rhythm => {
    const overDays = sinceDays === null || everyDays === null ? null : sinceDays - everyDays
    return { ...rhythm, last: sinceDays === null ? null : rhythm.last, sinceDays, pickDays, by, everyDays, overDays }
  }
  it.each([
    [9, 4, 4, '5 days over'],
    [2, 3, 8, 'in 6 days'],
    [4, 3, 4, 'due today'],
    [4, 5, 3.5, '0.5 days over'],
    [4, 2, null, 'too little to tell'],
    [null, 0, null, 'not picked yet'],
    [200, 0, null, 'too little to tell'],
  ])('%s days since, of %s pickings every %s: %s', (sinceDays, pickDays, everyDays, words) => {
    const row = told(sinceDays, pickDays, everyDays, everyDays === null ? null : 'own')
    expect([dueWords(row), byWords(row)]).toEqual([words, ''])
  })
  it('by others says by whom', () => {
    expect([dueWords(told(9, 1, 7, 'variety')), byWords(told(9, 1, 7, 'variety'))]).toEqual([
      '2 days over',
      'by plantings of the variety',
    ])
    expect(byWords(told(9, 1, 7, 'crop'))).toBe('by plantings of the crop')
  })
  it.each([
    [12, '12 days over'],
    [0, 'due today'],
    [-1, 'in 1 day'],
  ])('of a planting never picked is its first pick, %s days over', (overDays, words) => {
    const row: Rhythm = { ...told(null, 0, null, 'first pick'), overDays }
    expect([dueWords(row), byWords(row)]).toEqual([words, 'its first pick, by the crop’s usual days'])
  })
})

describe('the edits of a pick', () => {
  const told: PickTold = {
    on: '2026-08-01',
    place: { planting: 'p', bed: null, lon: null, lat: null },
    quantity: 2,
    unit: 'crate',
    picker: 'Ana',
    grade: null,
    note: null,
    shares: [{ to: 'Bor', part: 0.5, use: null }],
  }
  let made = 0
  const newId = () => `n${++made}`
  const kept = {
    pick: {
      id: 'k',
      extra: {},
      on: '2026-08-01',
      planting: 'p',
      bed: null,
      lon: null,
      lat: null,
      quantity: 20,
      unit: 'crate',
      grade: null,
      picker: 'Ana',
      note: null,
      kg_per_unit: 9,
    },
    shares: [{ id: 's', extra: {}, pick: 'k', to: 'Bor', part: 0.5, use: null }],
  }
  const margin = { on: '2026-08-02', reason: 'mistyped', was: '20 crate', now: '2 crate' }

  it('add the pick and its shares', () => {
    expect(newPick(told, newId).map((edit) => [edit.do, edit.kind])).toEqual([
      ['add', 'picks'],
      ['add', 'shares'],
    ])
  })
  it('put right change only what was wrong, so that the weight that was used stays', () => {
    const edits = correctedPick(kept, told, margin, newId)
    expect(edits[0]).toEqual({ do: 'change', kind: 'picks', id: 'k', to: { quantity: 2 } })
    expect(edits.slice(1)).toMatchObject([
      { kind: 'corrections', record: { record: 'k', deed: 'changed', reason: 'mistyped' } },
    ])
  })
  it('put right with other shares give these instead of the old', () => {
    const other = { ...told, quantity: 20, shares: [{ to: 'Bor', part: 1, use: null }] }
    expect(correctedPick(kept, other, margin, newId).map((edit) => [edit.do, edit.kind])).toEqual([
      ['remove', 'shares'],
      ['add', 'shares'],
      ['add', 'corrections'],
    ])
  })
  it('strike out remove the pick with its shares and keep why', () => {
    expect(struckOut(kept, { ...margin, now: null }, newId).map((edit) => [edit.do, edit.kind])).toEqual([
      ['remove', 'shares'],
      ['remove', 'picks'],
      ['add', 'corrections'],
    ])
  })
})
