import { useState } from 'preact/hooks'
import type { Crop } from '../../../geo/model/crops.ts'
import type { Variety } from '../../../geo/model/varieties.ts'
import type { Card } from '../../desk/door.ts'
import { Entry } from '../../ui/Entry.tsx'
import { Removal } from '../ground/Removal.tsx'
import { openCrop, varieties } from '../state/crops.ts'
import { newId } from '../state/newId.ts'
import { doEdits } from '../state/steps.ts'

/** The varieties of a crop: named, renamed, added, removed; and the crop itself removed. */
export function CropVarieties({ crop }: { readonly crop: Crop }) {
  const [name, setName] = useState('')
  const [fault, setFault] = useState<string | null>(null)
  const [removing, setRemoving] = useState<Card | null>(null)
  const own = varieties.value.filter((variety) => variety.crop === crop.id)
  const add = async () => {
    if (name.trim() === '') {
      setFault('A name is needed.')
      return
    }
    const record = { id: newId(), crop: crop.id, name: name.trim(), note: null, extra: {} }
    const reply = await doEdits(`Add ${crop.name}, ${record.name}`, [{ do: 'add', kind: 'varieties', record }])
    setFault(reply.ok ? null : reply.fault.detail)
    if (reply.ok) setName('')
  }
  return (
    <section aria-label={`Varieties of ${crop.name}`} class="crop-varieties">
      <h3>Varieties</h3>
      <ul>
        {own.map((variety) => (
          <VarietyLine
            key={variety.id}
            crop={crop}
            variety={variety}
            onRemove={() => setRemoving(cardOf('varieties', variety.id, `${crop.name}, ${variety.name}`))}
          />
        ))}
      </ul>
      <form
        onSubmit={(event) => {
          event.preventDefault()
          void add()
        }}
      >
        <Entry label="A new variety" fault={fault}>
          {(names) => (
            <input
              {...names}
              type="text"
              autocomplete="off"
              value={name}
              onInput={(event) => setName(event.currentTarget.value)}
            />
          )}
        </Entry>
        <p class="deeds-quiet">
          <button type="submit">Add the variety</button>
          <button type="button" onClick={() => setRemoving(cardOf('crops', crop.id, crop.name))}>
            Remove {crop.name}
          </button>
        </p>
      </form>
      {removing && (
        <Removal
          card={removing}
          word={removing.kind === 'crops' ? 'crop' : 'variety'}
          onClose={() => {
            setRemoving(null)
            if (removing.kind === 'crops') openCrop(null)
          }}
        />
      )}
    </section>
  )
}

const cardOf = (kind: string, id: string, title: string): Card => ({
  kind,
  id,
  title,
  subtitle: '',
  record: { id, extra: {} },
  lines: [],
  tables: [],
})

function VarietyLine({
  crop,
  variety,
  onRemove,
}: {
  readonly crop: Crop
  readonly variety: Variety
  readonly onRemove: () => void
}) {
  const [name, setName] = useState(variety.name)
  const rename = () => {
    if (name.trim() === '' || name.trim() === variety.name) setName(variety.name)
    else
      void doEdits(`Rename ${crop.name}, ${variety.name}`, [
        { do: 'change', kind: 'varieties', id: variety.id, to: { name: name.trim() } },
      ])
  }
  return (
    <li>
      <input
        type="text"
        aria-label={`Name of the variety ${variety.name}`}
        value={name}
        onInput={(event) => setName(event.currentTarget.value)}
        onChange={rename}
      />
      <button type="button" onClick={onRemove}>
        Remove<span class="unseen"> {variety.name}</span>
      </button>
    </li>
  )
}
