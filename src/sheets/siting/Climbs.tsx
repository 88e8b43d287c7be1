import { familySpans } from './familySpans.ts'

/** What climbs a row when, a line each. */
export function Climbs({ years }: { readonly years: Readonly<Record<string, string>> }) {
  const spans = familySpans(years)
  if (spans.length === 0) return <>nothing</>
  return (
    <>
      {spans.map((span, n) => (
        <span key={span} class="climbs">
          {span}
          {n < spans.length - 1 && '; '}
        </span>
      ))}
    </>
  )
}
