import { night, switchLight } from '../state/light.ts'

/** Day and night sheets, where the device's own choice does not suit. */
export function LightSwitch() {
  return (
    <button type="button" onClick={switchLight}>
      {night.value ? 'Day' : 'Night'}
    </button>
  )
}
