import { CAUTIONS } from '../cautions.ts'
import { sheet } from '../state/where.ts'
import { grounds } from './grounds.ts'

/** On a phone the title block has no room for the cautions: they stand at the head of the table. */
export function PhoneCautions() {
  const told = [...(grounds.value === null ? [] : [grounds.value]), ...CAUTIONS[sheet.value]]
  if (told.length === 0) return null
  return (
    <section class="phone-cautions" aria-label="Cautions">
      {told.map((words) => (
        <p key={words}>{words}</p>
      ))}
    </section>
  )
}
