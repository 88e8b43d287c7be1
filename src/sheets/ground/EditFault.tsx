import { editFault } from '../state/keepEdits.ts'

/** Why the database would not keep what was done, and how it can be kept all the same. */
export function EditFault() {
  const now = editFault.value
  if (!now) return null
  return (
    <div class="fault" role="alert">
      <p>{now.fault.detail}</p>
      {now.again && (
        <button type="button" onClick={now.again}>
          Keep it anyway
        </button>
      )}
    </div>
  )
}
