import type { System, SystemPart, SystemWork } from '../../../../geo/model/systems.ts'
import { type CatalogueSystem, INVENTED_PRICES, partNote } from '../../../../geo/supports/catalogue.ts'
import { readPartRule } from '../../../../geo/supports/partRule.ts'
import { readNumber } from '../../ground/formValues.ts'
import { METRES_PER_FOOT, type Units } from '../../show/figures.ts'
import type { Edits } from '../../state/steps.ts'

/** A system with its parts and work, as its records are. */
export interface KnownSystem {
  readonly system: System
  readonly parts: readonly SystemPart[]
  readonly work: readonly SystemWork[]
}

/** What is typed of a system, as text. `key` is the record's id, and of a new line an id for it. */
export interface SystemDraft {
  readonly id: string
  readonly is: 'new' | 'known'
  readonly values: Readonly<Record<SystemEntry, string>>
  readonly parts: readonly PartDraft[]
  readonly work: readonly WorkDraft[]
}
export type SystemEntry = 'name' | 'note' | 'height_m' | 'lines' | 'tension_n'
export type PartEntry =
  | 'part'
  | 'rule'
  | 'kind'
  | 'unit_cost'
  | 'lasts_seasons'
  | 'roll_m'
  | 'diameter_mm'
  | 'strength_mpa'
  | 'note'
export type WorkEntry = 'work' | 'minutes_per_m' | 'when'
export interface PartDraft {
  readonly key: string
  readonly values: Readonly<Record<PartEntry, string>>
}
export interface WorkDraft {
  readonly key: string
  readonly values: Readonly<Record<WorkEntry, string>>
}

export const NO_PART: PartDraft['values'] = {
  part: '',
  rule: '',
  kind: '',
  unit_cost: '',
  lasts_seasons: '',
  roll_m: '',
  diameter_mm: '',
  strength_mpa: '',
  note: '',
}
export const NO_WORK: WorkDraft['values'] = { work: '', minutes_per_m: '', when: 'each season' }

/** How numbers that have a unit are typed: what is kept for one of what is shown, by entry. */
export const perShown = (name: string, units: Units): number => {
  if (units !== 'us') return 1
  switch (name) {
    case 'height_m':
    case 'roll_m':
      return METRES_PER_FOOT
    case 'diameter_mm':
      return 25.4
    case 'tension_n':
      return 4.4482216152605
    case 'strength_mpa':
      return 6.894757293168
    case 'minutes_per_m':
      return 1 / METRES_PER_FOOT
    default:
      return 1
  }
}

const NUMBERS: Readonly<Record<string, 'above' | 'not below'>> = {
  height_m: 'above',
  lines: 'above',
  tension_n: 'above',
  unit_cost: 'not below',
  lasts_seasons: 'above',
  roll_m: 'above',
  diameter_mm: 'above',
  strength_mpa: 'above',
  minutes_per_m: 'not below',
}

/** A record's value as it is typed, in the person's units. */
function typed(name: string, value: unknown, units: Units): string {
  if (value === null || value === undefined) return ''
  if (typeof value !== 'number') return String(value)
  return String(Number((value / perShown(name, units)).toPrecision(6)))
}

const typedAll = <E extends string>(
  empty: Readonly<Record<E, string>>,
  record: Readonly<Record<string, unknown>>,
  units: Units,
) => Object.fromEntries(Object.keys(empty).map((name) => [name, typed(name, record[name], units)])) as Record<E, string>

const NO_SYSTEM: SystemDraft['values'] = { name: '', note: '', height_m: '', lines: '', tension_n: '' }

export const emptyDraft = (id: string): SystemDraft => ({ id, is: 'new', values: NO_SYSTEM, parts: [], work: [] })

export const draftOf = ({ system, parts, work }: KnownSystem, units: Units): SystemDraft => ({
  id: system.id,
  is: 'known',
  values: typedAll(NO_SYSTEM, system, units),
  parts: parts.map((part) => ({ key: part.id, values: typedAll(NO_PART, part, units) })),
  work: work.map((one) => ({ key: one.id, values: typedAll(NO_WORK, one, units) })),
})

export type Read = { readonly faults: Readonly<Record<string, string>>; readonly edits: Edits }

/** Says which fields of what was typed are wrong, by `name`, `part.KEY.name` or `work.KEY.name`; else the edits that keep it, all one step. */
export function readDraft(draft: SystemDraft, known: KnownSystem | null, units: Units): Read {
  const faults: Record<string, string> = {}
  const edits: Edits[number][] = []
  const put = (
    kind: string,
    id: string,
    before: Readonly<Record<string, unknown>> | null,
    values: Readonly<Record<string, string>>,
    at: string,
    fixed: Readonly<Record<string, unknown>>,
  ) => {
    const record: Record<string, unknown> = {}
    for (const [name, text] of Object.entries(values)) {
      const { value, fault } = readEntry(name, text, before?.[name], units)
      if (fault !== null) faults[`${at}${name}`] = fault
      record[name] = value
    }
    if (!before) edits.push({ do: 'add', kind, record: { id, extra: {}, ...fixed, ...record } })
    else if (Object.entries(record).some(([name, value]) => value !== (before[name] ?? null)))
      edits.push({ do: 'change', kind, id, to: record })
  }
  put('systems', draft.id, known?.system ?? null, draft.values, '', {})
  for (const { key, values } of draft.parts) {
    const before = known?.parts.find(({ id }) => id === key) ?? null
    put('system_parts', key, before, values, `part.${key}.`, { system: draft.id, modulus_gpa: null })
  }
  for (const { key, values } of draft.work) {
    const before = known?.work.find(({ id }) => id === key) ?? null
    put('system_work', key, before, values, `work.${key}.`, { system: draft.id })
  }
  const gone = <R extends { readonly id: string }>(
    kind: string,
    were: readonly R[],
    are: readonly { key: string }[],
  ) => {
    for (const { id } of were) if (!are.some(({ key }) => key === id)) edits.push({ do: 'remove', kind, id })
  }
  gone('system_parts', known?.parts ?? [], draft.parts)
  gone('system_work', known?.work ?? [], draft.work)
  return { faults, edits: Object.keys(faults).length > 0 ? [] : edits }
}

/** One entry read: what is kept of it, and what is wrong. A number that was not typed over keeps all its digits. */
function readEntry(
  name: string,
  text: string,
  before: unknown,
  units: Units,
): { readonly value: unknown; readonly fault: string | null } {
  const plain = text.trim()
  if (plain === '') {
    const needed = { name: 'A name', part: 'A name', work: 'What is done', rule: 'How many' }[name]
    return { value: null, fault: needed ? `${needed} is needed.` : null }
  }
  const rule = NUMBERS[name]
  if (rule !== undefined) {
    if (before !== undefined && plain === typed(name, before, units)) return { value: before, fault: null }
    const number = readNumber(plain)
    if (number === null) return { value: null, fault: `“${plain}” is not a number.` }
    if (rule === 'above' && number <= 0) return { value: null, fault: 'It must be above zero.' }
    if (number < 0) return { value: null, fault: 'It can’t be below zero.' }
    if (name === 'lines' && (!Number.isInteger(number) || number > 50))
      return { value: null, fault: 'A whole number from 1 to 50.' }
    return { value: number * perShown(name, units), fault: null }
  }
  // A rule of an older archive that can't be counted stays as it is until it is typed over.
  if (name === 'rule' && plain !== before && readPartRule(plain) === null)
    return { value: null, fault: `“${plain}” can’t be counted by. Write it as in “How a rule is written”.` }
  return { value: plain, fault: null }
}

/** Edits that add a system of the catalogue to the farm, as one step. */
export function catalogueEdits(from: CatalogueSystem, newId: () => string): Edits {
  const id = newId()
  return [
    {
      do: 'add',
      kind: 'systems',
      record: {
        id,
        extra: {},
        name: from.name,
        note: `${from.says} ${INVENTED_PRICES}`,
        height_m: from.heightM,
        lines: from.lines ?? null,
        tension_n: from.tensionN ?? null,
      },
    },
    ...from.parts.map((part): Edits[number] => ({
      do: 'add',
      kind: 'system_parts',
      record: {
        id: newId(),
        extra: {},
        system: id,
        part: part.part,
        rule: part.rule,
        unit_cost: part.unitCost,
        lasts_seasons: part.lastsSeasons,
        note: partNote(part),
        kind: part.kind,
        roll_m: part.rollM ?? null,
        diameter_mm: part.diameterMm ?? null,
        strength_mpa: part.strengthMPa ?? null,
        modulus_gpa: null,
      },
    })),
    ...from.work.map(({ work, minutesPerM, when }): Edits[number] => ({
      do: 'add',
      kind: 'system_work',
      record: { id: newId(), extra: {}, system: id, work, minutes_per_m: minutesPerM, when },
    })),
  ]
}
