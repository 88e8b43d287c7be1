import { useState } from 'preact/hooks'
import { readPlace } from '../../../geo/plane/readPlace.ts'
import { Choice } from '../../ui/Choice.tsx'
import { Entry } from '../../ui/Entry.tsx'
import type { Units } from '../show/figures.ts'
import { makeFarm } from '../state/opening.ts'
import { devicePlace } from './devicePlace.ts'

/** Asked of a new farm. Where it lies may be left open: an aerial photo tells it, too. */
export function NewFarm() {
  const [name, setName] = useState('')
  const [units, setUnits] = useState<Units>('metric')
  const [currency, setCurrency] = useState('')
  const [place, setPlace] = useState('')
  const [faults, setFaults] = useState<{ name?: string; place?: string; currency?: string }>({})
  const keep = (event: Event) => {
    event.preventDefault()
    const typed = place.trim() === '' ? null : readPlace(place)
    const origin = typed?.as === 'lonLat' ? typed.at : null
    const money = currency.trim().toUpperCase()
    const found = {
      ...(name.trim() === '' && { name: 'A name is needed.' }),
      ...(typed?.as === 'fault' && { place: typed.detail }),
      ...(typed?.as === 'metres' && { place: 'Metres want a farm that lies somewhere: type latitude, longitude.' }),
      ...(money !== '' && !/^[A-Z]{3}$/.test(money) && { currency: 'Three letters, such as EUR.' }),
    }
    setFaults(found)
    if (Object.keys(found).length > 0) {
      const form = event.currentTarget as HTMLFormElement
      setTimeout(() => form.querySelector<HTMLElement>('[aria-invalid="true"]')?.focus())
      return
    }
    void makeFarm({
      name: name.trim(),
      units,
      currency: money === '' ? null : money,
      timezone: Intl.DateTimeFormat().resolvedOptions().timeZone ?? null,
      origin,
    })
  }
  return (
    <form onSubmit={keep} noValidate>
      <Entry label="Name of the farm" fault={faults.name}>
        {(names) => (
          <input
            {...names}
            type="text"
            autocomplete="off"
            value={name}
            onInput={(e) => setName(e.currentTarget.value)}
          />
        )}
      </Entry>
      <Choice
        label="Units"
        value={units}
        onChange={setUnits}
        options={[
          { value: 'metric', words: 'Metres, kilograms' },
          { value: 'us', words: 'Feet, pounds' },
        ]}
      />
      <Entry label="Currency" hint="Three letters, such as EUR. May be left empty." fault={faults.currency}>
        {(names) => (
          <input
            {...names}
            type="text"
            autocomplete="off"
            value={currency}
            onInput={(e) => setCurrency(e.currentTarget.value)}
          />
        )}
      </Entry>
      <Entry
        label="Where it lies"
        hint="Latitude, longitude: 46.3374, 15.6412. Leave it empty to open an aerial photo first, which tells where."
        fault={faults.place}
      >
        {(names) => (
          <input
            {...names}
            type="text"
            autocomplete="off"
            value={place}
            onInput={(e) => setPlace(e.currentTarget.value)}
          />
        )}
      </Entry>
      <p>
        <button
          type="button"
          onClick={async () => {
            const here = await devicePlace()
            if (here.ok) setPlace(here.place)
            else setFaults({ ...faults, place: here.why })
          }}
        >
          Where this device is
        </button>
      </p>
      <p class="deeds">
        <button type="submit" class="first-deed">
          Start this farm
        </button>
      </p>
    </form>
  )
}
