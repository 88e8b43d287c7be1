import { useLayoutEffect, useRef, useState } from 'preact/hooks'
import type { Crop } from '../../../geo/model/crops.ts'
import type { DeskFault } from '../../desk/door.ts'
import { FormEntry } from '../ground/FormEntry.tsx'
import { asTyped, fromTyped, type Typed } from '../ground/formValues.ts'
import { crops, openCrop } from '../state/crops.ts'
import { units } from '../state/farm.ts'
import { newId } from '../state/newId.ts'
import { doEdits } from '../state/steps.ts'
import { CropVarieties } from './CropVarieties.tsx'
import { cropFields } from './cropFields.ts'

/** A crop of the farm with its varieties, to be changed, or a new one to be told of. */
export function CropForm({ id }: { readonly id: string }) {
  const crop = crops.value?.find((one) => one.id === id) ?? null
  const families = [...new Set(crops.value?.map(({ family }) => family))].sort()
  const fields = cropFields(families)
  const [typed, setTyped] = useState<Typed>(() => asTyped(fields, crop ?? {}, units.value))
  const [faults, setFaults] = useState<Readonly<Record<string, string>>>({})
  const [fault, setFault] = useState<DeskFault | null>(null)
  const form = useRef<HTMLFormElement>(null)
  useLayoutEffect(() => form.current?.querySelector('input')?.focus(), [])
  if (id !== 'new' && !crop) return <p class="hint">This crop is not there any more.</p>

  const keep = async () => {
    const { record, faults } = fromTyped(fields, typed, units.value)
    setFaults(faults)
    setFault(null)
    const amiss = Object.keys(faults)[0]
    if (amiss !== undefined) {
      form.current?.querySelector<HTMLElement>(`[name="${amiss}"]`)?.focus()
      return
    }
    const name = String(record.name)
    const reply = crop
      ? await doEdits(`Change crop ${name}`, [{ do: 'change', kind: 'crops', id, to: changed(crop, record) }])
      : await addCrop(name, record)
    if (reply.ok) {
      if (crop) openCrop(null)
    } else if (reply.fault.field !== null && fields.some((field) => field.name === reply.fault.field))
      setFaults({ [reply.fault.field]: reply.fault.detail })
    else setFault(reply.fault)
  }
  return (
    <>
      <form
        ref={form}
        class="record-form"
        aria-label={crop ? `Crop ${crop.name}` : 'A new crop'}
        onSubmit={(event) => {
          event.preventDefault()
          void keep()
        }}
        onKeyDown={(event) => {
          if (event.key === 'Escape') openCrop(null)
        }}
      >
        <h2>{crop ? crop.name : 'A new crop'}</h2>
        {fields.map((field) => (
          <div key={field.name} class={field.name.endsWith('_source') ? 'source-entry' : ''}>
            <FormEntry
              field={field}
              value={typed[field.name] ?? ''}
              units={units.value}
              fault={faults[field.name]}
              onType={(value) => setTyped({ ...typed, [field.name]: value })}
            />
          </div>
        ))}
        {fault && (
          <p class="fault" role="alert">
            {fault.detail}
          </p>
        )}
        <p class="deeds-quiet">
          <button type="submit" class="first-deed">
            {crop ? 'Keep the changes' : 'Keep this crop'}
          </button>
          <button type="button" onClick={() => openCrop(null)}>
            Close
          </button>
        </p>
      </form>
      {crop && <CropVarieties crop={crop} />}
    </>
  )
}

/** Only what was typed otherwise: a length told to the millimetre is not to change what is kept beyond that. */
function changed(crop: Crop, record: Record<string, unknown>): Record<string, unknown> {
  const before: Readonly<Record<string, unknown>> = crop
  return Object.fromEntries(
    Object.entries(record).filter(([field, value]) => {
      const was = before[field] ?? null
      return typeof was === 'number' && typeof value === 'number'
        ? Math.abs(was - value) > 5e-4 * Math.abs(was)
        : was !== value
    }),
  )
}

async function addCrop(name: string, record: Record<string, unknown>) {
  const id = newId()
  const reply = await doEdits(`Add crop ${name}`, [{ do: 'add', kind: 'crops', record: { ...record, id, extra: {} } }])
  if (reply.ok) openCrop(id)
  return reply
}
