/** What the page says to the keeper of its files. */
export type ToKeeper = { readonly do: 'take over' }

/** What the keeper of the page's files says to the pages. */
export type FromKeeper =
  | { readonly keeping: { readonly done: number; readonly of: number } }
  /** A newer build can't take over while so many other tabs or windows show this one. */
  | { readonly othersOpen: number }

/** True for what a keeper sends, so that the page takes nothing else for it. */
export function isFromKeeper(data: unknown): data is FromKeeper {
  return typeof data === 'object' && data !== null && ('keeping' in data || 'othersOpen' in data)
}
