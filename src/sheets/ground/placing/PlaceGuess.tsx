import { useState } from 'preact/hooks'
import { Entry } from '../../../ui/Entry.tsx'
import { TextOnceLeft } from '../../../ui/TextOnceLeft.tsx'
import { devicePlace } from '../../start/devicePlace.ts'
import { openFarm, units } from '../../state/farm.ts'
import { lengthUnit } from '../formFields.ts'
import { changeGuess, placing, read, saidByPicture } from './state.ts'

/** Where the picture lies roughly: needed where fewer than two points tell it. */
export function PlaceGuess() {
  const [deviceFault, setDeviceFault] = useState<string | null>(null)
  const now = placing.value!
  const points = read.value?.pointIds.length ?? 0
  const faults = read.value?.faults
  const entries = [
    {
      name: 'middle',
      label: 'Middle of the picture',
      hint: openFarm.value?.origin
        ? 'Latitude, longitude. Empty is the farm’s middle.'
        : 'Latitude, longitude: 46.3374, 15.6412.',
      fault: faults?.middle,
    },
    {
      name: 'heading',
      label: 'Its top looks to, °',
      hint: 'Degrees from north by way of east. Empty is north.',
      fault: faults?.heading,
    },
    ...(now.filmFocalMm === null
      ? []
      : ([
          {
            name: 'height',
            label: `Flown above the ground, ${lengthUnit(units.value)}`,
            hint: 'For a picture straight down; a taped distance is better.',
            fault: faults?.height,
          },
        ] as const)),
  ] as const
  return (
    <details class="more" open={points < 2}>
      <summary>Where it lies roughly</summary>
      {saidByPicture.value && <p class="hint">{saidByPicture.value}</p>}
      {points >= 2 && <p class="hint">Two points or more tell it better: this is not used.</p>}
      {entries.map(({ name, label, hint, fault }) => (
        <Entry key={name} label={label} hint={hint} fault={fault}>
          {(names) => (
            <TextOnceLeft {...names} value={now.guess[name]} onTold={(text) => changeGuess({ [name]: text })} />
          )}
        </Entry>
      ))}
      <p>
        <button
          type="button"
          onClick={async () => {
            const here = await devicePlace()
            setDeviceFault(here.ok ? null : here.why)
            if (here.ok) changeGuess({ middle: here.place })
          }}
        >
          Where this device is
        </button>
      </p>
      {deviceFault && (
        <p class="fault" role="alert">
          {deviceFault}
        </p>
      )}
    </details>
  )
}
