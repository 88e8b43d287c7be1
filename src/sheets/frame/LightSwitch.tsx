import type { Look } from '../../map/theme/palette.ts'
import { look, showIn } from '../state/light.ts'

const WORDS: readonly (readonly [Look, string])[] = [
  ['day', 'Day'],
  ['night', 'Night'],
  ['sun', 'Sun'],
]

/** The other looks, each one tap away. */
export function LightSwitch() {
  return (
    <>
      {WORDS.filter(([name]) => name !== look.value).map(([name, words]) => (
        <button key={name} type="button" onClick={() => showIn(name)}>
          {words}
        </button>
      ))}
    </>
  )
}
