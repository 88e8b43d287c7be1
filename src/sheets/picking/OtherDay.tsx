import { showDay } from '../show/dates.ts'
import { on, today } from '../state/where.ts'

/** Told where what is entered would be kept of another day than today, with the way back. */
export function OtherDay({ day, onToday }: { readonly day: string; readonly onToday: (today: string) => void }) {
  if (day === today.value) return null
  return (
    <p class="pick-day">
      <span>
        For <strong>{showDay(day)}</strong>
      </span>
      <button
        type="button"
        class="quiet"
        onClick={() => {
          onToday(today.value)
          on.value = today.value
        }}
      >
        go to today
      </button>
    </p>
  )
}
