import { Entry } from '../../ui/Entry.tsx'
import { narrow } from '../frame/narrow.ts'
import { follow, following, position, positionFault } from '../picking/position.ts'
import { accuracyFigure, told as sayFigure } from '../show/figures.ts'
import { units } from '../state/farm.ts'
import type { Noting } from '../state/noting.ts'
import { showPane } from '../state/pane.ts'
import { layers, measured } from '../state/shown.ts'
import { middleOf } from './middleOf.ts'
import type { NoteTold } from './noteTold.ts'

interface Props {
  readonly of: Noting['of']
  readonly told: NoteTold
  readonly fault: string | undefined
  readonly onTell: (told: Partial<NoteTold>) => void
}

/** Where it is: a bed by list or by tap; something seen also where the device stands, or at any spot of the map. */
export function WhereNoted({ of, told, fault, onTell }: Props) {
  const beds = measured.value?.beds ?? []
  const takeBed = (bed: string | null) => {
    const outline = layers.value?.beds.features.find(({ properties }) => properties.id === bed)?.geometry
    onTell(of === 'dressings' ? { bed } : { bed, at: middleOf(outline) })
  }
  const here = position.value
  return (
    <>
      <Entry
        label="Where"
        fault={fault}
        hint={
          of === 'dressings'
            ? 'Or tap the bed on the map.'
            : told.at === null
              ? 'Or tap the spot on the map.'
              : told.bed === null
                ? 'At the spot told.'
                : 'At the spot told in this bed; a bed from the list means its middle.'
        }
      >
        {(labels) => (
          <select {...labels} value={told.bed ?? ''} onChange={(event) => takeBed(event.currentTarget.value || null)}>
            <option value="">{of === 'observations' && told.at !== null ? 'a spot on the map' : 'which bed?'}</option>
            {beds.map(({ id, name }) => (
              <option key={id} value={id}>
                {name}
              </option>
            ))}
          </select>
        )}
      </Entry>
      <div class="where-deeds">
        {narrow.value && (
          <button type="button" onClick={() => showPane('map')}>
            Tap it on the map
          </button>
        )}
        {of === 'observations' && !following.value && (
          <button type="button" onClick={follow}>
            Where am I?
          </button>
        )}
        {of === 'observations' && here && (
          <button type="button" onClick={() => onTell({ at: here.at, bed: null })}>
            Here, within {sayFigure(accuracyFigure(here.accuracyM, units.value))}
          </button>
        )}
      </div>
      {of === 'observations' && positionFault.value !== null && <p class="hint">{positionFault.value}</p>}
    </>
  )
}
