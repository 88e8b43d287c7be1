import type { Figure } from '../../show/figures.ts'

/** What laying out would make, in figures that stay in sight while it is changed. */
export function LaidFigures({ figures }: { readonly figures: readonly (readonly [string, Figure])[] }) {
  return (
    <div class="laid-figures" role="status" aria-label="What it makes">
      {figures.map(([what, { value, unit }]) => (
        <p key={what}>
          <span class="laid-value">
            {value}
            {unit !== '' && <span class="figure-unit"> {unit}</span>}
          </span>
          <span class="pen-what">{what}</span>
        </p>
      ))}
    </div>
  )
}
