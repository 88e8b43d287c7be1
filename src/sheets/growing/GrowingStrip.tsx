import { giveUpSettingOut, setOut, settingOut } from '../state/settingOut.ts'

/** Under the map: begin to set something out. */
export function GrowingStrip() {
  const held = settingOut.value !== null
  return (
    <fieldset class="strip-tools">
      <legend class="unseen">Plantings</legend>
      <button type="button" aria-pressed={held} onClick={() => (held ? giveUpSettingOut() : setOut(null))}>
        Set out
      </button>
    </fieldset>
  )
}
