// A small bot made with another client library than ours, against the emulator.
// What it hears it tells on standard output, one JSON object a line, for the test
// to read. It ends when its standard input ends.
//
//   EMULATOR_URL     where the emulator is, such as http://127.0.0.1:40321
//   EMULATOR_TOKEN   the bot's token
//   EMULATOR_PACKED  if set, asks for packets that are compressed one by one
import { Client, Events, GatewayIntentBits, Partials, SimpleShardingStrategy } from 'discord.js';
import { answer, commands } from './answers.mjs';
import { obey } from './posts.mjs';

const tell = (event, about = {}) => process.stdout.write(JSON.stringify({ event, ...about }) + '\n');
const fault = (error) => tell('failed', { text: String(error?.stack ?? error), code: error?.code });
// What a handler throws is told too, and nothing is left unhandled.
const told = (work) => (...args) => Promise.resolve(work(...args)).catch(fault);

const client = new Client({
  intents: [
    GatewayIntentBits.Guilds, GatewayIntentBits.GuildMessages, GatewayIntentBits.GuildMessageReactions,
    GatewayIntentBits.DirectMessages, GatewayIntentBits.MessageContent,
  ],
  partials: [Partials.Channel, Partials.Message, Partials.Reaction],
  rest: { api: process.env.EMULATOR_URL + '/api' },
  ws: {
    // The library's own throttler lets five seconds pass between two identifies,
    // by the clock on the wall; the emulator has another clock.
    buildIdentifyThrottler: () => ({ waitForIdentify: async () => {} }),
    buildStrategy: (manager) => {
      manager.options.useIdentifyCompression = Boolean(process.env.EMULATOR_PACKED);
      return new SimpleShardingStrategy(manager);
    },
  },
});

client.once(Events.ClientReady, told(async () => {
  const made = await client.application.commands.set(commands);
  tell('ready', {
    user: client.user.id, registered: made.map((c) => c.name),
    channels: client.guilds.cache.map((g) => g.channels.cache.map((c) => c.name)).flat().sort(),
  });
}));
client.on(Events.ShardReady, () => tell('identified'));
client.on(Events.ShardResume, (_, replayed) => tell('resumed', { replayed }));
client.on(Events.ShardDisconnect, ({ code }) => tell('disconnected', { code }));
client.on(Events.Error, fault);
client.on(Events.InteractionCreate, told((i) => answer(i, tell)));
client.on(Events.MessageCreate, told((m) => {
  if (!m.author.bot) return obey(m, tell);
}));
client.on(Events.MessageUpdate, (_, m) => tell('edited', { id: m.id, content: m.content }));
client.on(Events.MessageDelete, (m) => tell('deleted', { id: m.id }));
client.on(Events.MessageReactionAdd, (r, user) => tell('reacted', { id: r.message.id, emoji: r.emoji.name, by: user.id }));

process.stdin.resume();
process.stdin.on('end', told(async () => {
  await client.destroy();
  process.exit(0);
}));
await client.login(process.env.EMULATOR_TOKEN).catch(fault);
