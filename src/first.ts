// The page is painted as it stands in index.html before its program is fetched.
requestAnimationFrame(() => setTimeout(() => import('./main.tsx')))
