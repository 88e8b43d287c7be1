import { useState } from 'preact/hooks'
import { usualWeightsOf } from '../../../geo/model/usualWeights.ts'
import { KG_PER_LB } from '../../../geo/model/weigh.ts'
import { Chips } from '../../ui/Chips.tsx'
import { Dialog } from '../../ui/Dialog.tsx'
import { Entry as Asked } from '../../ui/Entry.tsx'
import { readNumber } from '../ground/formValues.ts'
import { units } from '../state/farm.ts'
import { newId } from '../state/newId.ts'
import { containers } from '../state/picking.ts'
import { doEdits, type Edits } from '../state/steps.ts'
import { entry, offeredUnits, tell, unitTold } from './entry.ts'
import { sayWeight } from './keepPick.ts'
import { cropNameOf, cropOf } from './pickPlace.ts'

/** Everything that a quantity may be told in, with its weight and source; containers are added and changed here. */
export function Containers({ onClose }: { readonly onClose: () => void }) {
  const [form, setForm] = useState<{ readonly unit: string } | null>(null)
  const crop = cropNameOf(entry.value.place)
  return (
    <Dialog title={crop ? `What ${crop.toLowerCase()} is told in` : 'What a pick is told in'} onClose={onClose}>
      {form ? (
        <ContainerForm
          unit={form.unit}
          onDone={(unit) => {
            if (unit !== null) tell({ unit })
            setForm(null)
          }}
        />
      ) : (
        <>
          <ul class="units">
            {offeredUnits.value.map(({ unit, kg, source }) => (
              <li key={unit}>
                <button
                  type="button"
                  aria-pressed={unit === unitTold.value?.unit}
                  onClick={() => {
                    tell({ unit })
                    onClose()
                  }}
                >
                  {unit}
                </button>
                <span class="unit-weight">
                  {kg === null ? 'no weight' : sayWeight(kg)}
                  {source !== null && <span class="hint"> {source}</span>}
                </span>
                {containers.value.some((one) => one.unit === unit) && (
                  <button type="button" class="quiet" onClick={() => setForm({ unit })}>
                    Change<span class="unseen"> {unit}</span>
                  </button>
                )}
              </li>
            ))}
          </ul>
          <p class="deeds">
            <button type="button" onClick={() => setForm({ unit: '' })}>
              Another container
            </button>
          </p>
        </>
      )}
    </Dialog>
  )
}

/** One container's weight. A changed weight holds from now on: picks keep the weight that they were entered with. */
function ContainerForm({
  unit: known,
  onDone,
}: {
  readonly unit: string
  readonly onDone: (unit: string | null) => void
}) {
  const crop = cropOf(entry.value.place)
  const cropName = cropNameOf(entry.value.place)
  const ofCrop = containers.value.find((one) => one.unit === known && crop !== null && one.crop === crop)
  const before = ofCrop ?? containers.value.find((one) => one.unit === known && one.crop === null)
  const us = units.value === 'us'
  const asTyped = (kg: number) => String(Number((us ? kg / KG_PER_LB : kg).toFixed(3)))
  const [unit, setUnit] = useState(known)
  const [weight, setWeight] = useState(before ? asTyped(before.kg) : '')
  const [source, setSource] = useState(before?.source ?? '')
  const [everyCrop, setEveryCrop] = useState(crop === null || (before !== undefined && !ofCrop))
  const [fault, setFault] = useState<{ readonly unit?: string; readonly weight?: string }>({})
  const usual = cropName === null ? [] : usualWeightsOf(cropName).filter((one) => known === '' || one.unit === known)

  const keep = async () => {
    const name = unit.trim()
    const value = readNumber(weight)
    const wrong = {
      ...(name === '' ? { unit: 'A name is needed.' } : {}),
      ...(['kg', 'g', 'lb', 'oz'].includes(name) ? { unit: `${name} is a unit of mass: it weighs itself.` } : {}),
      ...(value === null || value <= 0 ? { weight: 'Its weight is needed, above zero.' } : {}),
    }
    setFault(wrong)
    if (Object.keys(wrong).length > 0 || value === null) return
    const of = everyCrop ? null : crop
    const there = containers.value.find((one) => one.unit === name && one.crop === of)
    const kg = us ? value * KG_PER_LB : value
    const told = { kg: before && asTyped(before.kg) === weight.trim() ? before.kg : kg, source: source.trim() || null }
    const edit: Edits[number] = there
      ? { do: 'change', kind: 'containers', id: there.id, to: told }
      : { do: 'add', kind: 'containers', record: { id: newId(), unit: name, crop: of, ...told, extra: {} } }
    const reply = await doEdits(`Weight of a ${name}`, [edit])
    if (reply.ok) onDone(name)
    else setFault({ [reply.fault.field === 'kg' ? 'weight' : 'unit']: reply.fault.detail })
  }

  return (
    <>
      <Asked label="Container" hint="crate, tray, bunch, bushel …" fault={fault.unit}>
        {(names) => (
          <input
            {...names}
            type="text"
            autocomplete="off"
            value={unit}
            readOnly={known !== ''}
            onInput={(event) => setUnit(event.currentTarget.value)}
          />
        )}
      </Asked>
      {usual.length > 0 && (
        <Chips
          label="Usual weights, with who says so"
          options={usual.map(({ unit: of, lb, source: from }, i) => ({
            value: String(i),
            words: `${of}: ${us ? `${lb} lb` : sayWeight(lb * KG_PER_LB)} (${from})`,
          }))}
          chosen={[]}
          onTap={(i) => {
            const one = usual[Number(i)]!
            setUnit(one.unit)
            setWeight(asTyped(one.lb * KG_PER_LB))
            setSource(`${one.lb} lb, ${one.source}`)
            setEveryCrop(false)
          }}
        />
      )}
      <Asked label={`One full weighs, ${us ? 'lb' : 'kg'}`} fault={fault.weight}>
        {(names) => (
          <input
            {...names}
            type="text"
            inputMode="decimal"
            autocomplete="off"
            value={weight}
            onInput={(event) => setWeight(event.currentTarget.value)}
          />
        )}
      </Asked>
      {crop !== null && (
        <Chips
          label="Holds for"
          options={[
            { value: 'crop', words: cropName ?? crop },
            { value: 'every', words: 'every crop without its own' },
          ]}
          chosen={[everyCrop ? 'every' : 'crop']}
          onTap={(tapped) => setEveryCrop(tapped === 'every')}
        />
      )}
      <Asked label="Source" hint="Who says so: weighed here, or which list.">
        {(names) => (
          <input
            {...names}
            type="text"
            autocomplete="off"
            value={source}
            onInput={(event) => setSource(event.currentTarget.value)}
          />
        )}
      </Asked>
      <p class="hint">
        Holds for picks entered from now on; earlier picks keep the weight that they were entered with.
      </p>
      <p class="deeds">
        <button type="button" class="first-deed" onClick={() => void keep()}>
          Keep this weight
        </button>
        <button type="button" onClick={() => onDone(null)}>
          Back
        </button>
      </p>
    </>
  )
}
