package strict

// The published bounds, each group with the page it is from. They are numbers of
// characters (Unicode code points), of things, or of bytes.
const (
	pageReference    = "Discord API docs, reference"
	pageMessage      = "Discord API docs, message resource"
	pageComponents   = "Discord API docs, component reference"
	pageInteractions = "Discord API docs, receiving and responding"
	pageCommands     = "Discord API docs, application commands"
	pageGateway      = "Discord API docs, gateway"
	pageWebhook      = "Discord API docs, webhook resource"
	pageRates        = "Discord API docs, rate limits"
	houseRule        = "house rule"
)

// Discord API docs, message resource.
const (
	maxContent       = 2000
	maxEmbeds        = 10
	maxNonce         = 25
	maxAllowedIDs    = 100
	maxReactionKinds = 20 // code 30010
	maxPage          = 100
	defaultPage      = 50
	minBulkDelete    = 2
	maxBulkDelete    = 100
)

// Discord API docs, message resource, embed limits.
const (
	maxEmbedTitle       = 256
	maxEmbedDescription = 4096
	maxEmbedFields      = 25
	maxEmbedFieldName   = 256
	maxEmbedFieldValue  = 1024
	maxEmbedFooter      = 2048
	maxEmbedAuthor      = 256
	maxEmbedSum         = 6000 // over all embeds of a message
)

// Discord API docs, reference, uploading files; the whole request in the message resource.
const (
	maxFile            = 10 << 20
	maxFiles           = 10 // code 30015
	maxRequest         = 25 << 20
	maxFileDescription = 1024
)

// Discord API docs, component reference.
const (
	maxRows             = 5
	maxButtons          = 5
	maxComponents       = 40 // with the components V2 flag, nested ones counted
	maxCustomID         = 100
	maxLabel            = 80
	maxButtonURL        = 512
	maxSelectOptions    = 25
	maxSelectText       = 100 // label, value and description of an option
	maxPlaceholder      = 150
	maxSectionTexts     = 3
	maxGalleryItems     = 10
	maxMediaDescription = 1024
)

// Discord API docs, receiving and responding.
const (
	maxChoices      = 25
	maxChoiceName   = 100
	maxChoiceString = 100
	firstResponse   = 3  // seconds
	tokenLife       = 15 // minutes
)

// Discord API docs, application commands.
const (
	maxSlashCommands   = 100
	maxMenuCommands    = 15 // of users and of messages, each
	maxCommandOptions  = 25
	maxCommandText     = 100 // a description
	maxCommandSum      = 8000
	maxOptionMinLength = 6000
	maxWhole           = 1<<53 - 1
	maxDailyCreates    = 200
)

// Discord API docs, gateway.
const (
	maxPayload      = 4096
	maxEventsMinute = 120
	maxIdentifies   = 1000 // in 24 hours
	maxLargeGuild   = 250
	minLargeGuild   = 50
)
