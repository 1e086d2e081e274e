// What the bot posts when a person says one of these words. Each ends with a
// "done" that tells what the library made of the emulator's answer.
import { AttachmentBuilder, EmbedBuilder } from 'discord.js';

// The smallest picture: one transparent point.
const picture = Buffer.from('iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNkYPhfDwAChwGA60e6kgAAAABJRU5ErkJggg==', 'base64');

const words = {
  // The same post twice, which must become one message.
  async once({ channel }) {
    const post = () => channel.send({ content: 'Block 2 begins.', nonce: 'block-2', enforceNonce: true });
    return { ids: [(await post()).id, (await post()).id] };
  },
  async edit({ channel }) {
    const m = await channel.send('Block 2 begins on Monday.');
    const after = await m.edit({ content: 'Block 2 begins on Tuesday.', allowedMentions: { parse: [] } });
    return { id: after.id, content: after.content, edited: after.editedTimestamp !== null };
  },
  async react(m) {
    const r = await m.react('\u{1F4AA}');
    return { id: m.id, emoji: r.emoji.name, mine: r.me };
  },
  // A picture with words for those who do not see it, in a frame, read back.
  async file({ channel }) {
    const chart = new AttachmentBuilder(picture, { name: 'chart.png', description: 'Squat rises from 140 to 150 kg.' });
    const m = await channel.send({ files: [chart], embeds: [new EmbedBuilder().setTitle('Squat').setImage('attachment://chart.png')] });
    const sent = m.attachments.first();
    const back = Buffer.from(await (await fetch(sent.url)).arrayBuffer());
    return { id: m.id, description: sent.description, same: back.equals(picture) };
  },
  async direct({ author }) {
    return { id: (await author.send('Rest day tomorrow.')).id };
  },
  async reply(m) {
    const r = await m.reply({ content: 'Noted.', allowedMentions: { repliedUser: false } });
    return { id: r.id, to: r.reference.messageId };
  },
  async remove({ channel }) {
    const m = await channel.send('A slip.');
    await m.delete();
    return { id: m.id };
  },
  async read({ channel }) {
    const list = await channel.messages.fetch({ limit: 3 });
    return { contents: list.map((m) => m.content) };
  },
  // Five posts as fast as the library lets them go.
  async many({ channel }) {
    const all = await Promise.all([1, 2, 3, 4, 5].map((n) => channel.send(`Set ${n}`)));
    return { ids: all.map((m) => m.id) };
  },
};

export async function obey(m, tell) {
  const work = words[m.content];
  if (!work) return tell('heard', { content: m.content, by: m.author.username, direct: !m.inGuild() });
  tell('done', { word: m.content, ...(await work(m)) });
}
