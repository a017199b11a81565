import type { NameSource } from './suggest.ts'

/** The lists behind options that complete while typing, by the name that an option's schema carries. */
export const nameSources: Readonly<Record<string, NameSource>> = {
  products: { list: async (store) => (await store.labels.names()).map((name) => ({ name })) },
  sites: { list: async (store) => (await store.sites.list()).map(({ name }) => ({ name })) },
  areas: {
    list: async (store) => {
      const sites = new Map((await store.sites.list()).map((site) => [site.id, site.name]))
      return (await store.sites.allAreas()).flatMap((area) => {
        const within = sites.get(area.siteId)
        return within === undefined ? [] : [{ name: area.name, within }]
      })
    },
  },
  sprayers: { list: async (store) => (await store.sprayers.list()).map(({ name }) => ({ name })) },
  people: { list: async (store) => (await store.people.list()).map(({ name }) => ({ name })) },
}
