import { notices } from '../state/farm.ts'

/** What must be told once about how the farm was opened: rebuilt from the step log, a wreck kept aside. */
export function Notices() {
  if (notices.value.length === 0) return null
  return (
    <section class="notices" aria-label="Told on opening">
      {notices.value.map((notice) => (
        <p key={notice}>{notice}</p>
      ))}
      <button
        type="button"
        onClick={() => {
          notices.value = []
        }}
      >
        Understood
      </button>
    </section>
  )
}
