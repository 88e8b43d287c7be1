import { useEffect, useState } from 'preact/hooks'
import type { Thing } from '../../../map/farmMap.ts'
import { closeAct } from '../../state/drawing.ts'
import { editFault } from '../../state/keepEdits.ts'
import { forgetSeveral } from '../../state/several.ts'
import { removeRecords } from '../../state/steps.ts'
import { askGoesToo } from '../askGoesToo.ts'
import { ActFrame } from './ActFrame.tsx'
import { countWords } from './thingWords.ts'

/** Asked before several things are removed: what goes with them. */
export function RemovePane({ things }: { readonly things: readonly Thing[] }) {
  const [too, setToo] = useState<readonly string[] | null>(null)
  useEffect(() => {
    void askGoesToo(things).then(setToo)
  }, [things])
  const remove = async () => {
    const reply = await removeRecords(things, `Remove ${countWords(things)}`)
    if (!reply.ok) {
      editFault.value = { fault: reply.fault, again: null }
      return
    }
    forgetSeveral()
    closeAct()
  }
  return (
    <ActFrame
      title={`Remove ${countWords(things)}?`}
      deed="Remove them"
      why={too === null ? 'Counting what stands on them.' : null}
      onDo={() => void remove()}
    >
      {too?.length === 0 && <p>Nothing else goes with them.</p>}
      {too !== null && too.length > 0 && (
        <>
          <p>With them go, in every season:</p>
          <ul>
            {too.map((words) => (
              <li key={words}>{words}</li>
            ))}
          </ul>
        </>
      )}
      <p>Undo brings all of it back as it was.</p>
    </ActFrame>
  )
}
