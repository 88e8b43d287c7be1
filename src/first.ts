import { startEarly } from './desk/startWorker.ts'

// The page is painted as it stands in index.html before its program is fetched, and the desk's worker beside it.
requestAnimationFrame(() =>
  setTimeout(() => {
    startEarly()
    void import('./main.tsx')
  }),
)
