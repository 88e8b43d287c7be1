import { useState } from 'preact/hooks'
import type { DeskFault, InStore } from '../../desk/door.ts'
import { Dialog } from '../../ui/Dialog.tsx'
import { Entry } from '../../ui/Entry.tsx'
import { readNumber } from '../ground/formValues.ts'
import { METRES_PER_FOOT, showNumber } from '../show/figures.ts'
import { units } from '../state/farm.ts'
import { newId } from '../state/newId.ts'
import { doEdits, type Edits } from '../state/steps.ts'
import { seen } from '../state/supports.ts'
import { showAmount } from './PartTable.tsx'

/** What parts are in store: taken off the shopping list. */
export function InStoreDialog({ onClose }: { readonly onClose: () => void }) {
  const [form, setForm] = useState<InStore | 'new' | null>(null)
  const [fault, setFault] = useState<DeskFault | null>(null)
  const remove = async (one: InStore) => {
    const reply = await doEdits(`Take ${one.part} out of store`, [{ do: 'remove', kind: 'stores', id: one.id }])
    setFault(reply.ok ? null : reply.fault)
  }
  const list = seen.value?.inStore ?? []
  return (
    <Dialog title="What is in store" onClose={onClose}>
      {form ? (
        <StoreForm of={form === 'new' ? null : form} onDone={() => setForm(null)} />
      ) : (
        <>
          {list.length === 0 && <p>Nothing yet. What is entered here is taken off the shopping list.</p>}
          <ul class="in-store">
            {list.map((one) => (
              <li key={one.id}>
                <span>
                  <strong>{one.part}</strong>{' '}
                  {[
                    one.count === null ? '' : showAmount(one.count, 'piece'),
                    one.metres === null ? '' : showAmount(one.metres, 'm'),
                    one.note ?? '',
                  ]
                    .filter(Boolean)
                    .join(', ')}
                </span>
                <button type="button" class="quiet" onClick={() => setForm(one)}>
                  Change<span class="unseen"> {one.part}</span>
                </button>
                <button type="button" class="quiet" onClick={() => void remove(one)}>
                  Remove<span class="unseen"> {one.part}</span>
                </button>
              </li>
            ))}
          </ul>
          {fault && (
            <p class="fault" role="alert">
              {fault.detail}
            </p>
          )}
          <p class="deeds">
            <button type="button" class="first-deed" onClick={() => setForm('new')}>
              Add a part
            </button>
          </p>
        </>
      )}
    </Dialog>
  )
}

function StoreForm({ of, onDone }: { readonly of: InStore | null; readonly onDone: () => void }) {
  const perUnit = units.value === 'us' ? METRES_PER_FOOT : 1
  const lengthTyped = of?.metres == null ? '' : String(Number((of.metres / perUnit).toFixed(3)))
  const [part, setPart] = useState(of?.part ?? '')
  const [count, setCount] = useState(of?.count == null ? '' : showNumber(of.count, 0).replace(/\D/g, ''))
  const [length, setLength] = useState(lengthTyped)
  const [note, setNote] = useState(of?.note ?? '')
  const [faults, setFaults] = useState<Readonly<Record<string, string>>>({})
  const names = [...new Set(seen.value?.recipes.flatMap((recipe) => recipe.parts.map((one) => one.part)))].sort()

  const keep = async () => {
    const pieces = count.trim() === '' ? null : readNumber(count)
    const metres = length.trim() === '' ? null : readNumber(length)
    const wrong = {
      ...(part.trim() === '' ? { part: 'Which part is it?' } : {}),
      ...(count.trim() !== '' && (pieces === null || pieces < 0 || !Number.isInteger(pieces))
        ? { count: `“${count}” is not a whole number.` }
        : {}),
      ...(length.trim() !== '' && (metres === null || metres < 0) ? { metres: `“${length}” is not a length.` } : {}),
      ...(pieces === null && metres === null && count.trim() === '' && length.trim() === ''
        ? { count: 'How many, or how much by length?' }
        : {}),
    }
    setFaults(wrong)
    if (Object.keys(wrong).length > 0) return
    const told = {
      part: part.trim(),
      count: pieces,
      metres: metres === null ? null : length === lengthTyped ? of!.metres : metres * perUnit,
      note: note.trim() || null,
    }
    const edit: Edits[number] = of
      ? { do: 'change', kind: 'stores', id: of.id, to: told }
      : { do: 'add', kind: 'stores', record: { id: newId(), ...told, extra: {} } }
    const reply = await doEdits(`${told.part} in store`, [edit])
    if (reply.ok) onDone()
    else setFaults({ [reply.fault.field ?? 'part']: reply.fault.detail })
  }
  const entry = (name: string, label: string, value: string, set: (text: string) => void, hint?: string) => (
    <Entry label={label} hint={hint} fault={faults[name]}>
      {(given) => (
        <input
          {...given}
          type="text"
          autocomplete="off"
          value={value}
          {...(name === 'part' && { list: 'parts-known' })}
          {...((name === 'count' || name === 'metres') && { inputMode: 'decimal' as const })}
          onInput={(event) => set(event.currentTarget.value)}
        />
      )}
    </Entry>
  )
  return (
    <form
      onSubmit={(event) => {
        event.preventDefault()
        void keep()
      }}
    >
      {entry('part', 'Part', part, setPart, 'As the system calls it: parts are matched by name.')}
      <datalist id="parts-known">
        {names.map((name) => (
          <option key={name} value={name} />
        ))}
      </datalist>
      {entry('count', 'Pieces', count, setCount)}
      {entry('metres', `Length, ${units.value === 'us' ? 'ft' : 'm'}`, length, setLength, 'Of net, wire or string.')}
      {entry('note', 'Note', note, setNote)}
      <p class="deeds">
        <button type="submit" class="first-deed">
          Keep
        </button>
        <button type="button" onClick={onDone}>
          Back
        </button>
      </p>
    </form>
  )
}
