import type { Command } from '../command.ts'

export const classes: Command = {
  name: 'classes',
  summary: 'part classes a sheet may use; of one, its properties and terminals',
  about:
    'Without a name every class is listed under its group. A group is a class itself: of a part of which no more is known.',
  arguments: [{ name: 'name', about: 'class, group, or another word for one', optional: true }],
  options: [],
  examples: ['lidoff classes', 'lidoff classes dc-link-film-capacitor'],
  async run(call) {
    const { showClasses } = await import('../show-classes.ts')
    return showClasses(call)
  },
}
