// How the bot answers commands, buttons, menus and forms.
import {
  ActionRowBuilder, ButtonBuilder, ButtonStyle, CheckboxBuilder, LabelBuilder, MessageFlags, ModalBuilder,
  RadioGroupBuilder, SlashCommandBuilder, StringSelectMenuBuilder, TextInputBuilder, TextInputStyle,
} from 'discord.js';

export const commands = [
  new SlashCommandBuilder().setName('week').setDescription('what to lift this week')
    .addIntegerOption((o) => o.setName('number').setDescription('which week').setMinValue(1).setMaxValue(52))
    .addStringOption((o) => o.setName('lift').setDescription('one lift only').setAutocomplete(true)),
  new SlashCommandBuilder().setName('bar').setDescription('about the bar')
    .addSubcommand((s) => s.setName('load').setDescription('put plates on')
      .addUserOption((o) => o.setName('spotter').setDescription('who helps').setRequired(true))),
];

const lifts = ['squat', 'bench', 'deadlift'];
const row = (component) => new ActionRowBuilder().addComponents(component);
const options = lifts.map((l) => ({ label: l, value: l }));

const controls = () => [
  row(new ButtonBuilder().setCustomId('log').setLabel('Log a set').setStyle(ButtonStyle.Primary)),
  row(new StringSelectMenuBuilder().setCustomId('lift').setPlaceholder('Which lift').addOptions(options)),
];

const form = () => new ModalBuilder().setCustomId('set').setTitle('A set').addLabelComponents(
  new LabelBuilder().setLabel('Weight').setDescription('in kilograms')
    .setTextInputComponent(new TextInputBuilder().setCustomId('weight').setStyle(TextInputStyle.Short).setMaxLength(6)),
  new LabelBuilder().setLabel('Lift')
    .setStringSelectMenuComponent(new StringSelectMenuBuilder().setCustomId('lift').addOptions(options)),
  new LabelBuilder().setLabel('How it felt')
    .setRadioGroupComponent(new RadioGroupBuilder().setCustomId('felt')
      .addOptions({ label: 'Easy', value: 'easy' }, { label: 'Hard', value: 'hard' })),
  new LabelBuilder().setLabel('With a belt').setCheckboxComponent(new CheckboxBuilder().setCustomId('belt')),
);

export async function answer(i, tell) {
  if (i.isAutocomplete()) return suggest(i);
  if (i.isModalSubmit()) return submitted(i, tell);
  if (i.isButton()) return i.showModal(form());
  if (i.isStringSelectMenu()) return i.update({ content: 'Only ' + i.values.join(), components: [] });
  if (i.commandName === 'week') return week(i);
  return load(i, tell);
}

// Deferred, for one person only, with controls; and a second message after it.
async function week(i) {
  await i.deferReply({ flags: MessageFlags.Ephemeral });
  await i.editReply({ content: `Week ${i.options.getInteger('number') ?? 1}, ${i.options.getString('lift') ?? 'all lifts'}`, components: controls() });
  await i.followUp({ content: 'Sleep well.', flags: MessageFlags.Ephemeral });
}

async function load(i, tell) {
  await i.reply({ content: `${i.options.getSubcommand()} with ${i.options.getUser('spotter')}`, allowedMentions: { parse: [] } });
  tell('answered', { rights: i.memberPermissions.has('SendMessages'), channel: i.channel.name });
}

const suggest = (i) => i.respond(lifts.filter((l) => l.startsWith(i.options.getFocused())).map((l) => ({ name: l, value: l })));

async function submitted(i, tell) {
  const f = i.fields;
  const content = [f.getTextInputValue('weight'), f.getStringSelectValues('lift').join(), f.getRadioGroup('felt'), f.getCheckbox('belt')].join(' ');
  const { resource } = await i.reply({ content, withResponse: true });
  tell('submitted', { id: resource.message.id, content: resource.message.content });
}
