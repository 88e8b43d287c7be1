import { describe, expect, it } from 'vitest'
import type { InStore } from '../../../src/desk/door.ts'
import type { Units } from '../../../src/sheets/show/figures.ts'
import { readStore, storeDraft } from '../../../src/sheets/supports/readStore.ts'
import {
  draftOf,
  emptyDraft,
  type KnownSystem,
  NO_PART,
  NO_WORK,
  readDraft,
} from '../../../src/sheets/supports/systems/draft.ts'

// Exact: 1 ft = 0.3048 m, 1 in = 25.4 mm (NIST HB 44 app. C); 1 lbf = 4.4482216152605 N; 1 ksi = 6.894757293168 MPa.
const SWITCHED: readonly Units[] = ['us', 'metric', 'us']

describe('what is typed in feet, inches and pounds', () => {
  it('is kept of a system in SI, and stays so through two switches of the units', () => {
    const empty = emptyDraft('s')
    const { faults, edits } = readDraft(
      {
        ...empty,
        values: { ...empty.values, name: 'Net', height_m: '5', tension_n: '250' },
        parts: [
          {
            key: 'p',
            values: {
              ...NO_PART,
              part: 'wire',
              rule: '1 m per m',
              roll_m: '330',
              diameter_mm: '0.099',
              strength_mpa: '170',
            },
          },
        ],
        work: [{ key: 'w', values: { ...NO_WORK, work: 'hang', minutes_per_m: '1' } }],
      },
      null,
      'us',
    )
    expect(faults).toEqual({})
    const [system, part, work] = edits.map((edit) => (edit.do === 'add' ? edit.record : null)) as never as [
      KnownSystem['system'],
      KnownSystem['parts'][number],
      KnownSystem['work'][number],
    ]
    expect(system.height_m).toBeCloseTo(1.524, 12)
    expect(system.tension_n).toBeCloseTo(1112.055403815125, 9)
    expect(part.roll_m).toBeCloseTo(100.584, 12)
    expect(part.diameter_mm).toBeCloseTo(2.5146, 12)
    expect(part.strength_mpa).toBeCloseTo(1172.10873983856, 9)
    expect(work.minutes_per_m).toBeCloseTo(1 / 0.3048, 12)
    const known: KnownSystem = { system, parts: [part], work: [work] }
    for (const units of SWITCHED)
      expect(readDraft(draftOf(known, units), known, units), units).toEqual({ faults: {}, edits: [] })
  })

  it('is kept of a part in store in metres, and stays so through two switches of the units', () => {
    const { faults, told } = readStore({ part: 'net', count: '', length: '100', note: '' }, null, 'us')
    expect(faults).toEqual({})
    expect(told.metres).toBeCloseTo(30.48, 12)
    let kept: InStore = { id: 'st', ...told, metres: 30.48 + 1e-7 }
    for (const units of SWITCHED) {
      const again = readStore(storeDraft(kept, units), kept, units)
      kept = { id: 'st', ...again.told }
      expect(kept.metres, units).toBe(30.48 + 1e-7)
    }
  })

  it.each([
    [{ part: ' ' }, ['part']],
    [{ count: '2.5' }, ['count']],
    [{ length: 'long' }, ['metres']],
    [{ count: '', length: '' }, ['count']],
  ])('is told at its entry where it can’t be kept: %j', (wrong, at) => {
    const { faults } = readStore({ part: 'net', count: '2', length: '', note: '', ...wrong }, null, 'us')
    expect(Object.keys(faults)).toEqual(at)
  })
})
