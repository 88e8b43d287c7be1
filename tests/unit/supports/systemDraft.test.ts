import { describe, expect, it } from 'vitest'
import { CATALOGUE } from '../../../geo/supports/catalogue.ts'
import {
  catalogueEdits,
  draftOf,
  type KnownSystem,
  readDraft,
  type SystemDraft,
} from '../../../src/sheets/supports/systems/draft.ts'

const known: KnownSystem = {
  system: { id: 's', extra: {}, name: 'Net', note: null, height_m: 1.37, lines: 2, tension_n: 1112.0554 },
  parts: [
    {
      id: 'p',
      extra: {},
      system: 's',
      part: 'post',
      rule: '1 per 1.5 m + 1',
      unit_cost: 5.2,
      lasts_seasons: 15,
      note: null,
      kind: 'post',
      roll_m: null,
      diameter_mm: 33.33,
      strength_mpa: 35.123456789,
      modulus_gpa: null,
    },
  ],
  work: [{ id: 'w', extra: {}, system: 's', work: 'weave', minutes_per_m: 1 / 3, when: 'each season' }],
}
const withPart = (draft: SystemDraft, values: Partial<SystemDraft['parts'][number]['values']>): SystemDraft => ({
  ...draft,
  parts: draft.parts.map((part) => ({ ...part, values: { ...part.values, ...values } })),
})

describe('a system as it is typed', () => {
  it.each(['metric', 'us'] as const)('changes nothing that was not typed over, in %s units', (units) => {
    expect(readDraft(draftOf(known, units), known, units)).toEqual({ faults: {}, edits: [] })
  })

  it('keeps feet as metres, and leaves every other digit as it was', () => {
    const draft = draftOf(known, 'us')
    const { edits } = readDraft({ ...draft, values: { ...draft.values, height_m: '5' } }, known, 'us')
    expect(edits).toEqual([
      {
        do: 'change',
        kind: 'systems',
        id: 's',
        to: { name: 'Net', note: null, height_m: 1.524, lines: 2, tension_n: 1112.0554 },
      },
    ])
  })

  it('tells a fault at its field, and keeps nothing then', () => {
    const draft = withPart(draftOf(known, 'metric'), {
      rule: 'a few',
      unit_cost: '-1',
      part: ' ',
      lasts_seasons: 'long',
    })
    const { faults, edits } = readDraft(
      { ...draft, values: { ...draft.values, name: '', lines: '2.5' } },
      known,
      'metric',
    )
    expect(Object.keys(faults).sort()).toEqual(
      ['lines', 'name', 'part.p.lasts_seasons', 'part.p.part', 'part.p.rule', 'part.p.unit_cost'].sort(),
    )
    expect(edits).toEqual([])
  })

  it('leaves a rule of an older archive that can’t be counted, until it is typed over', () => {
    const old = { ...known, parts: [{ ...known.parts[0]!, rule: 'as many as it takes' }] }
    expect(readDraft(draftOf(old, 'metric'), old, 'metric')).toEqual({ faults: {}, edits: [] })
  })

  it('adds and removes lines with the rest, in one list of edits', () => {
    const draft = draftOf(known, 'metric')
    const added = { key: 'n', values: { work: 'pull', minutes_per_m: '2,5', when: 'taking down' } }
    const { edits } = readDraft({ ...draft, parts: [], work: [...draft.work, added] }, known, 'metric')
    expect(edits.map((edit) => [edit.do, edit.kind, edit.do === 'add' ? edit.record.id : edit.id])).toEqual([
      ['add', 'system_work', 'n'],
      ['remove', 'system_parts', 'p'],
    ])
    expect(edits[0]).toMatchObject({ record: { system: 's', minutes_per_m: 2.5 } })
  })

  it('adds every part and work of the catalogue’s systems', () => {
    for (const from of CATALOGUE) {
      let n = 0
      const edits = catalogueEdits(from, () => String(n++))
      expect(edits).toHaveLength(1 + from.parts.length + from.work.length)
      expect(edits.every((edit) => edit.do === 'add')).toBe(true)
    }
  })
})
