import { showClock } from '../show/dates.ts'
import { network } from '../state/device.ts'
import { copyFault, copyMs } from '../state/farm.ts'

/** How safely the farm is kept: on this device, with a logical copy beside the database. */
export function Kept() {
  return (
    <p class="kept" role="status">
      All kept on this device
      {copyMs.value !== null && <span>, copy made at {showClock(copyMs.value)}</span>}
      {copyFault.value && <span class="fault">. No room for a copy: make room on this device</span>}
      {!network.value && <span>. No network now, and none is needed</span>}
    </p>
  )
}
