import { useRef, useState } from 'preact/hooks'
import { PART_KINDS } from '../../../../geo/supports/partKind.ts'
import { RULE_FORMS } from '../../../../geo/supports/partRule.ts'
import { workPhaseOf } from '../../../../geo/supports/workPhase.ts'
import { Entry } from '../../../ui/Entry.tsx'
import { openFarm, units } from '../../state/farm.ts'
import { newId } from '../../state/newId.ts'
import { doEdits } from '../../state/steps.ts'
import {
  type KnownSystem,
  NO_PART,
  NO_WORK,
  type PartDraft,
  type PartEntry,
  readDraft,
  type SystemDraft,
  type SystemEntry,
  type WorkDraft,
} from './draft.ts'

interface Props {
  readonly first: SystemDraft
  readonly known: KnownSystem | null
  readonly onDone: () => void
}

/** A whole system typed: its size, parts and work. Kept as one step. */
export function SystemForm({ first, known, onDone }: Props) {
  const [draft, setDraft] = useState(first)
  const [faults, setFaults] = useState<Readonly<Record<string, string>>>({})
  const [fault, setFault] = useState<string | null>(null)
  const form = useRef<HTMLFormElement>(null)
  const us = units.value === 'us'
  const currency = openFarm.value?.farm.currency ?? null

  const keep = async () => {
    const { faults, edits } = readDraft(draft, known, units.value)
    setFaults(faults)
    setFault(null)
    const amiss = Object.keys(faults)[0]
    if (amiss !== undefined) {
      const entry = form.current?.querySelector<HTMLElement>(`[name="${amiss}"]`)
      const folded = entry?.closest('details')
      if (folded) folded.open = true
      entry?.focus()
      return
    }
    if (edits.length === 0) {
      onDone()
      return
    }
    const reply = await doEdits(`${draft.is === 'new' ? 'Add' : 'Change'} ${draft.values.name.trim()}`, edits)
    if (reply.ok) onDone()
    else setFault(reply.fault.field === null ? reply.fault.detail : `${reply.fault.field}: ${reply.fault.detail}`)
  }
  const text = (
    at: string,
    label: string,
    value: string,
    set: (text: string) => void,
    hint?: string,
    list?: string,
  ) => (
    <Entry label={label} hint={hint} fault={faults[at]}>
      {(names) => (
        <input
          {...names}
          name={at}
          type="text"
          autocomplete="off"
          value={value}
          {...(list && { list })}
          onInput={(event) => set(event.currentTarget.value)}
        />
      )}
    </Entry>
  )
  const own = (name: SystemEntry, label: string, hint?: string) =>
    text(
      name,
      label,
      draft.values[name],
      (value) => setDraft({ ...draft, values: { ...draft.values, [name]: value } }),
      hint,
    )
  const setPart = (part: PartDraft, name: PartEntry, value: string) =>
    setDraft({
      ...draft,
      parts: draft.parts.map((one) =>
        one.key === part.key ? { ...one, values: { ...one.values, [name]: value } } : one,
      ),
    })
  const partText = (part: PartDraft, name: PartEntry, label: string, list?: string) =>
    text(`part.${part.key}.${name}`, label, part.values[name], (value) => setPart(part, name, value), undefined, list)
  const setWork = (work: WorkDraft, change: Partial<WorkDraft['values']>) =>
    setDraft({
      ...draft,
      work: draft.work.map((one) => (one.key === work.key ? { ...one, values: { ...one.values, ...change } } : one)),
    })
  return (
    <form
      ref={form}
      class="system-form"
      aria-label={draft.is === 'new' ? 'New system' : `Change ${first.values.name}`}
      onSubmit={(event) => {
        event.preventDefault()
        void keep()
      }}
    >
      {own('name', 'Name')}
      <div class="beside-each">
        {own('height_m', `Height, ${us ? 'ft' : 'm'}`)}
        {own('lines', 'Lines, one above another')}
        {own('tension_n', `Wire strained to, ${us ? 'lb' : 'N'}`)}
      </div>
      {own('note', 'Note')}
      <details class="from">
        <summary>How a rule is written</summary>
        <div class="from-words">
          <p>
            How many, per what, and how many more or fewer in all. “Per 1.5 m” counts each stretch begun; “+ 1” is the
            post at the other end. “m of line” is the run’s length for each line; “m2” is the side that is leafed.
            Lengths in a rule are metres.
          </p>
          <ul>
            {RULE_FORMS.map((rule) => (
              <li key={rule}>
                <code>{rule}</code>
              </li>
            ))}
          </ul>
        </div>
      </details>
      <datalist id="rule-forms">
        {RULE_FORMS.map((rule) => (
          <option key={rule} value={rule} />
        ))}
      </datalist>
      {draft.parts.map((part, n) => (
        <fieldset key={part.key} class="line-of-system">
          <legend>{part.values.part || `Part ${n + 1}`}</legend>
          <div class="beside-each">
            {partText(part, 'part', 'Part')}
            {partText(part, 'rule', 'How many', 'rule-forms')}
          </div>
          <div class="beside-each">
            {partText(part, 'unit_cost', `Price of one, or of a metre${currency ? `, ${currency}` : ''}`)}
            {partText(part, 'lasts_seasons', 'Lasts, seasons')}
            <Entry label="Kind" fault={faults[`part.${part.key}.kind`]}>
              {(names) => (
                <select
                  {...names}
                  name={`part.${part.key}.kind`}
                  value={part.values.kind}
                  onInput={(event) => setPart(part, 'kind', event.currentTarget.value)}
                >
                  <option value="">by its name</option>
                  {PART_KINDS.map((kind) => (
                    <option key={kind} value={kind}>
                      {kind}
                    </option>
                  ))}
                </select>
              )}
            </Entry>
          </div>
          <details class="more">
            <summary>
              Roll, thickness, strength<span class="unseen"> of {part.values.part || `part ${n + 1}`}</span>
            </summary>
            <div class="beside-each">
              {partText(part, 'roll_m', `Roll holds, ${us ? 'ft' : 'm'}`)}
              {partText(part, 'diameter_mm', `Thickness, ${us ? 'in' : 'mm'}`)}
              {partText(part, 'strength_mpa', `Breaking stress, ${us ? 'ksi' : 'MPa'}`)}
            </div>
            {partText(part, 'note', 'Note, with its source')}
          </details>
          <button
            type="button"
            class="quiet"
            onClick={() => setDraft({ ...draft, parts: draft.parts.filter(({ key }) => key !== part.key) })}
          >
            Leave out<span class="unseen"> {part.values.part || `part ${n + 1}`}</span>
          </button>
        </fieldset>
      ))}
      <p>
        <button
          type="button"
          onClick={() => setDraft({ ...draft, parts: [...draft.parts, { key: newId(), values: NO_PART }] })}
        >
          Another part
        </button>
      </p>
      {draft.work.map((work, n) => (
        <fieldset key={work.key} class="line-of-system">
          <legend>{work.values.work || `Work ${n + 1}`}</legend>
          <div class="beside-each">
            {text(`work.${work.key}.work`, 'Work', work.values.work, (value) => setWork(work, { work: value }))}
            {text(
              `work.${work.key}.minutes_per_m`,
              `Minutes for each ${us ? 'foot' : 'metre'}`,
              work.values.minutes_per_m,
              (value) => setWork(work, { minutes_per_m: value }),
            )}
            <Entry label="When">
              {(names) => (
                <select
                  {...names}
                  value={workPhaseOf(work.values.when || null)}
                  onInput={(event) => setWork(work, { when: event.currentTarget.value })}
                >
                  {['putting up', 'each season', 'taking down'].map((when) => (
                    <option key={when} value={when}>
                      {when}
                    </option>
                  ))}
                </select>
              )}
            </Entry>
          </div>
          <button
            type="button"
            class="quiet"
            onClick={() => setDraft({ ...draft, work: draft.work.filter(({ key }) => key !== work.key) })}
          >
            Leave out<span class="unseen"> {work.values.work || `work ${n + 1}`}</span>
          </button>
        </fieldset>
      ))}
      <p>
        <button
          type="button"
          onClick={() => setDraft({ ...draft, work: [...draft.work, { key: newId(), values: NO_WORK }] })}
        >
          Another work
        </button>
      </p>
      {fault !== null && (
        <p class="fault" role="alert">
          {fault}
        </p>
      )}
      <p class="deeds">
        <button type="submit" class="first-deed">
          Keep this system
        </button>
        <button type="button" onClick={onDone}>
          Leave as it was
        </button>
      </p>
    </form>
  )
}
