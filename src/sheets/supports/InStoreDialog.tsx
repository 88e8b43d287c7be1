import { useState } from 'preact/hooks'
import type { DeskFault, InStore } from '../../desk/door.ts'
import { Dialog } from '../../ui/Dialog.tsx'
import { Entry } from '../../ui/Entry.tsx'
import { units } from '../state/farm.ts'
import { newId } from '../state/newId.ts'
import { doEdits, type Edits } from '../state/steps.ts'
import { seen } from '../state/supports.ts'
import { showAmount } from './PartTable.tsx'
import { readStore, type StoreDraft, storeDraft } from './readStore.ts'

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
  const [draft, setDraft] = useState(storeDraft(of, units.value))
  const [faults, setFaults] = useState<Readonly<Record<string, string>>>({})
  const names = [...new Set(seen.value?.recipes.flatMap((recipe) => recipe.parts.map((one) => one.part)))].sort()

  const keep = async () => {
    const { faults: wrong, told } = readStore(draft, of, units.value)
    setFaults(wrong)
    if (Object.keys(wrong).length > 0) return
    const edit: Edits[number] = of
      ? { do: 'change', kind: 'stores', id: of.id, to: told }
      : { do: 'add', kind: 'stores', record: { id: newId(), ...told, extra: {} } }
    const reply = await doEdits(`${told.part} in store`, [edit])
    if (reply.ok) onDone()
    else setFaults({ [reply.fault.field ?? 'part']: reply.fault.detail })
  }
  const entry = (name: keyof StoreDraft, label: string, hint?: string) => (
    <Entry label={label} hint={hint} fault={faults[name === 'length' ? 'metres' : name]}>
      {(given) => (
        <input
          {...given}
          type="text"
          autocomplete="off"
          value={draft[name]}
          {...(name === 'part' && { list: 'parts-known' })}
          {...((name === 'count' || name === 'length') && { inputMode: 'decimal' as const })}
          onInput={(event) => setDraft({ ...draft, [name]: event.currentTarget.value })}
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
      {entry('part', 'Part', 'As the system calls it: parts are matched by name.')}
      <datalist id="parts-known">
        {names.map((name) => (
          <option key={name} value={name} />
        ))}
      </datalist>
      {entry('count', 'Pieces')}
      {entry('length', `Length, ${units.value === 'us' ? 'ft' : 'm'}`, 'Of net, wire or string.')}
      {entry('note', 'Note')}
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
