import { ToolButton } from '../ground/GroundStrip.tsx'
import { systems } from '../state/systems.ts'

/** Under the map: draw a run, once there is a system that it can be of. */
export function SupportsStrip() {
  if (systems.value.length === 0) return null
  return (
    <fieldset class="strip-tools">
      <legend>Draw</legend>
      <ToolButton what="support" words="Support" />
    </fieldset>
  )
}
