import { useState } from 'preact/hooks'
import { readPlace } from '../../../geo/plane/readPlace.ts'
import { Entry } from '../../ui/Entry.tsx'
import { devicePlace } from '../start/devicePlace.ts'
import { farmMap } from '../state/mapHandle.ts'
import { isNowhere } from './nowhere.ts'
import { OpenPhoto } from './OpenPhoto.tsx'

/** Over the map of a farm that lies nowhere yet: asks where, since what is drawn first says so for good. */
export function WhereFirst() {
  const [typed, setTyped] = useState('')
  const [fault, setFault] = useState<string | null>(null)
  if (!isNowhere.value) return null
  const go = (event: Event) => {
    event.preventDefault()
    const read = readPlace(typed)
    if (read.as === 'fault') setFault(read.detail)
    else if (read.as === 'metres') setFault('The farm has no middle yet that metres could count from.')
    else farmMap.value?.setView({ centre: read.at, zoom: 17, bearingDeg: 0 })
  }
  return (
    <form class="where-first" onSubmit={go} noValidate>
      <h2>Where does the farm lie?</h2>
      <p>An aerial photo tells, and so does this device or a typed place. Then the first field is drawn there.</p>
      <OpenPhoto />
      <button
        type="button"
        onClick={async () => {
          const here = await devicePlace()
          if (here.ok) setTyped(here.place)
          setFault(here.ok ? null : here.why)
        }}
      >
        Where this device is
      </button>
      <Entry label="Latitude, longitude" hint="46.3374, 15.6412" fault={fault}>
        {(names) => (
          <input
            {...names}
            type="text"
            autocomplete="off"
            value={typed}
            onInput={(event) => {
              setTyped(event.currentTarget.value)
              setFault(null)
            }}
          />
        )}
      </Entry>
      <button type="submit" class="first-deed">
        Go there
      </button>
    </form>
  )
}
