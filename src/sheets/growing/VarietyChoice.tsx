import { CATALOGUE } from '../../../geo/catalogue/crops.ts'
import { Entry } from '../../ui/Entry.tsx'
import { crops, varieties } from '../state/crops.ts'
import { units } from '../state/farm.ts'
import { newId } from '../state/newId.ts'
import { change, chooseVariety } from '../state/settingOut.ts'
import { type Draft, type Fresh, spacingText } from './draft.ts'

const ANOTHER = 'another'

/** Which variety: one of the farm's, or a new one of a crop of the farm or of the catalogue, which is kept with the planting. */
export function VarietyChoice({ draft, fault }: { readonly draft: Draft; readonly fault: string | undefined }) {
  const own = [...(crops.value ?? [])].sort((a, b) => a.name.localeCompare(b.name))
  const known = new Set(own.flatMap(({ id, name }) => [id, name.toLowerCase()]))
  const offered = CATALOGUE.filter(({ key, name }) => !known.has(key) && !known.has(name.toLowerCase()))
  const { fresh } = draft
  const choose = (value: string) => {
    if (value === ANOTHER) change({ variety: '', fresh: { id: newId(), crop: null, name: '' } })
    else chooseVariety(value)
  }
  const chooseCrop = (value: string) => {
    if (!fresh) return
    const crop = cropChosen(value)
    const usual =
      crop?.of === 'catalogue' ? crop.entry.spacingM[0] : own.find(({ id }) => id === (crop?.id ?? ''))?.usual_spacing_m
    change({
      fresh: { ...fresh, crop },
      ...(usual && { spacing: spacingText(usual, units.value), follows: 'plants' as const }),
    })
  }
  return (
    <>
      <Entry label="Variety" fault={fresh ? null : fault}>
        {(names) => (
          <select
            {...names}
            name="variety"
            value={fresh ? ANOTHER : draft.variety}
            onChange={(event) => choose(event.currentTarget.value)}
          >
            <option value="" disabled>
              choose
            </option>
            <option value={ANOTHER}>Another variety or crop…</option>
            {own.map((crop) => (
              <optgroup key={crop.id} label={crop.name}>
                {varieties.value
                  .filter((variety) => variety.crop === crop.id)
                  .map(({ id, name }) => (
                    <option key={id} value={id}>
                      {crop.name}, {name}
                    </option>
                  ))}
              </optgroup>
            ))}
          </select>
        )}
      </Entry>
      {fresh && (
        <div class="pair">
          <Entry label="Crop" fault={fresh.crop ? null : fault}>
            {(names) => (
              <select
                {...names}
                name="crop"
                value={cropValue(fresh)}
                onChange={(event) => chooseCrop(event.currentTarget.value)}
              >
                <option value="" disabled>
                  choose
                </option>
                <optgroup label="On this farm">
                  {own.map(({ id, name }) => (
                    <option key={id} value={`farm:${id}`}>
                      {name}
                    </option>
                  ))}
                </optgroup>
                <optgroup label="From the catalogue">
                  {offered.map(({ key, name }) => (
                    <option key={key} value={`catalogue:${key}`}>
                      {name}
                    </option>
                  ))}
                </optgroup>
              </select>
            )}
          </Entry>
          <Entry label="Name of the variety" fault={fresh.crop ? fault : null}>
            {(names) => (
              <input
                {...names}
                name="fresh"
                type="text"
                autocomplete="off"
                value={fresh.name}
                onInput={(event) => change({ fresh: { ...fresh, name: event.currentTarget.value } })}
              />
            )}
          </Entry>
        </div>
      )}
    </>
  )
}

function cropChosen(value: string): Fresh['crop'] {
  const [of, id] = [value.slice(0, value.indexOf(':')), value.slice(value.indexOf(':') + 1)]
  if (of === 'farm') return { of, id }
  const entry = CATALOGUE.find(({ key }) => key === id)
  return entry ? { of: 'catalogue', entry } : null
}

function cropValue({ crop }: Fresh): string {
  if (!crop) return ''
  return crop.of === 'farm' ? `farm:${crop.id}` : `catalogue:${crop.entry.key}`
}
