import { useState } from 'preact/hooks'
import { later } from '../../ui/later.tsx'
import { ToolButton } from '../ground/GroundStrip.tsx'
import { systems } from '../state/systems.ts'

const SystemsDialog = later(async () => (await import('./systems/SystemsDialog.tsx')).SystemsDialog)

/** Under the map: the systems, and drawing a run once there is a system that it can be of. */
export function SupportsStrip() {
  const [open, setOpen] = useState(false)
  return (
    <>
      <fieldset class="strip-tools">
        <legend>Draw</legend>
        {systems.value.length > 0 && <ToolButton what="support" words="Support" />}
        <button type="button" onClick={() => setOpen(true)}>
          Systems
        </button>
      </fieldset>
      {open && <SystemsDialog onClose={() => setOpen(false)} />}
    </>
  )
}
