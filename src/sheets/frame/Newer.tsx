import { newer, takeNewer } from '../state/device.ts'

/** Says that a newer build lies ready. It is shown when the person says so, or when the page is opened next. */
export function Newer() {
  const ready = newer.value
  if (!ready) return null
  return (
    <section class="newer" role="status" aria-label="A newer Selion">
      <p>
        A newer Selion is here: reload when it suits.{' '}
        {ready.others > 0 &&
          `It is open in ${ready.others === 1 ? 'one other tab or window' : `${ready.others} other tabs or windows`}: close what stands there first.`}
      </p>
      <button type="button" onClick={takeNewer}>
        Reload
      </button>
      <button
        type="button"
        onClick={() => {
          newer.value = null
        }}
      >
        Later
      </button>
    </section>
  )
}
