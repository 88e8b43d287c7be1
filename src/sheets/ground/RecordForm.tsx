import { useLayoutEffect, useRef, useState } from 'preact/hooks'
import type { DeskFault } from '../../desk/door.ts'
import { dropPending, type Pending, pendingKept } from '../state/drawing.ts'
import { units } from '../state/farm.ts'
import { cardTold, doEdits, type Edits } from '../state/steps.ts'
import { choicesFor } from './choicesFor.ts'
import { FormEntry } from './FormEntry.tsx'
import { type FormField, formFields, KIND_WORD } from './formFields.ts'
import { asTyped, fromTyped, type Typed } from './formValues.ts'

/** Name and the rest of a record just drawn, or being changed. Enter keeps it; nothing typed is lost by a fault. */
export function RecordForm({ pending }: { readonly pending: Pending }) {
  const { kind, geometry, id } = pending
  const fields = formFields(kind, choicesFor(pending))
  const [typed, setTyped] = useState<Typed>(() => asTyped(fields, pending.values, units.value))
  const [faults, setFaults] = useState<Readonly<Record<string, string>>>({})
  const [fault, setFault] = useState<DeskFault | null>(null)
  const form = useRef<HTMLFormElement>(null)
  useLayoutEffect(() => {
    const first = form.current?.querySelector<HTMLInputElement>('input, select, textarea')
    first?.focus()
    if (first instanceof HTMLInputElement) first.select()
  }, [])

  const keep = async (accept: Readonly<Record<string, unknown>>) => {
    const { record, faults } = fromTyped(fields, typed, units.value)
    setFaults(faults)
    setFault(null)
    const amiss = Object.keys(faults)[0]
    if (amiss !== undefined) {
      form.current?.querySelector<HTMLElement>(`[name="${amiss}"]`)?.focus()
      return
    }
    const values = { ...record, ...accept }
    const name = typeof record.name === 'string' && record.name !== '' ? record.name : ''
    const words = `${KIND_WORD[kind]}${name === '' ? '' : ` ${name}`}`
    const edit: Edits[number] = geometry
      ? { do: 'add', kind, record: { id, extra: { ...pending.extra }, ...values, geom: geometry } }
      : { do: 'change', kind, id, to: values }
    const reply = await doEdits(`${geometry ? 'Draw' : 'Change'} ${words}`, [edit])
    if (reply.ok) {
      // The card comes back with what was changed on it.
      if (!geometry) await cardTold()
      pendingKept()
    } else if (reply.fault.field !== null && fields.some((field) => field.name === reply.fault.field))
      setFaults({ [reply.fault.field]: reply.fault.detail })
    else setFault(reply.fault)
  }

  const entry = (field: FormField) => (
    <FormEntry
      key={field.name}
      field={field}
      value={typed[field.name] ?? ''}
      units={units.value}
      fault={faults[field.name]}
      onType={(value) => setTyped({ ...typed, [field.name]: value })}
    />
  )
  return (
    <form
      ref={form}
      class="record-form"
      aria-label={pending.label}
      onSubmit={(event) => {
        event.preventDefault()
        void keep({})
      }}
      onKeyDown={(event) => {
        if (event.key === 'Escape') dropPending()
      }}
    >
      <h2>{pending.label}</h2>
      {fields.filter(({ more }) => !more).map(entry)}
      {fields.some(({ more }) => more) && (
        <details class="more" open={fields.some(({ more, name }) => more && (faults[name] || pending.values[name]))}>
          <summary>More</summary>
          {fields.filter(({ more }) => more).map(entry)}
        </details>
      )}
      {fault && (
        <div class="fault" role="alert" ref={bringIntoView}>
          <p>{fault.detail}</p>
          {fault.accept && (
            <button type="button" onClick={() => void keep(fault.accept!)}>
              Keep it anyway
            </button>
          )}
        </div>
      )}
      <p class="deeds">
        <button type="submit" class="first-deed">
          {geometry ? `Keep this ${KIND_WORD[kind]}` : 'Keep the changes'}
        </button>
        <button type="button" onClick={dropPending}>
          {geometry ? 'Throw it away' : 'Leave as it was'}
        </button>
      </p>
    </form>
  )
}

/** What is wrong must be seen at once, also where the form is longer than its pane. */
function bringIntoView(fault: HTMLElement | null): void {
  fault?.scrollIntoView({ block: 'nearest' })
}
