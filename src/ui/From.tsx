import type { ComponentChildren } from 'preact'

/** Where a number comes from, one tap away: formula, records and source in plain words. */
export function From({ children, about }: { readonly children: ComponentChildren; readonly about?: string }) {
  return (
    <details class="from">
      <summary>
        from<span class="unseen">{about ? ` what ${about} is reckoned` : ' where this comes'}</span>
      </summary>
      <div class="from-words">{children}</div>
    </details>
  )
}
