package discordtest

// apiError is an error as the platform answers it: an HTTP status, a code of its
// own and words. Source of the codes: topics/opcodes-and-status-codes.
type apiError struct {
	status, code int
	message      string
	reasons      []string // for 50035: what is wrong with the body
}

// body is the JSON of an error.
func (e *apiError) body() object {
	o := object{"code": e.code, "message": e.message}
	if len(e.reasons) > 0 {
		var list []object
		for _, r := range e.reasons {
			list = append(list, object{"code": "BASE_TYPE_INVALID", "message": r})
		}
		o["errors"] = object{"_errors": list}
	}
	return o
}

var (
	errUnauthorized      = &apiError{status: 401, message: "401: Unauthorized"}
	errNotFound          = &apiError{status: 404, message: "404: Not Found"}
	errMethod            = &apiError{status: 405, message: "405: Method Not Allowed"}
	errUnknownChannel    = &apiError{status: 404, code: 10003, message: "Unknown Channel"}
	errUnknownGuild      = &apiError{status: 404, code: 10004, message: "Unknown Guild"}
	errUnknownMember     = &apiError{status: 404, code: 10007, message: "Unknown Member"}
	errUnknownMessage    = &apiError{status: 404, code: 10008, message: "Unknown Message"}
	errUnknownUser       = &apiError{status: 404, code: 10013, message: "Unknown User"}
	errUnknownEmoji      = &apiError{status: 400, code: 10014, message: "Unknown Emoji"}
	errUnknownWebhook    = &apiError{status: 404, code: 10015, message: "Unknown Webhook"}
	errUnknownAct        = &apiError{status: 404, code: 10062, message: "Unknown interaction"}
	errUnknownCommand    = &apiError{status: 404, code: 10063, message: "Unknown application command"}
	errDailyCreates      = &apiError{status: 400, code: 30034, message: "Max number of daily application command creates has been reached (200)"}
	errTooManyCommands   = &apiError{status: 400, code: 30032, message: "Maximum number of application commands reached"}
	errTooManyReactions  = &apiError{status: 400, code: 30010, message: "Maximum number of reactions reached (20)"}
	errTooLarge          = &apiError{status: 413, code: 40005, message: "Request entity too large"}
	errAcknowledged      = &apiError{status: 400, code: 40060, message: "Interaction has already been acknowledged."}
	errMissingAccess     = &apiError{status: 403, code: 50001, message: "Missing Access"}
	errNotYours          = &apiError{status: 403, code: 50005, message: "Cannot edit a message authored by another user"}
	errEmptyMessage      = &apiError{status: 400, code: 50006, message: "Cannot send an empty message"}
	errClosedDirect      = &apiError{status: 403, code: 50007, message: "Cannot send messages to this user"}
	errMissingPermission = &apiError{status: 403, code: 50013, message: "Missing Permissions"}
	errTokenExpired      = &apiError{status: 401, code: 50027, message: "Invalid Webhook Token"}
	errArchived          = &apiError{status: 400, code: 50083, message: "Thread is archived"}
	errNoMutualGuild     = &apiError{status: 403, code: 50278, message: "Cannot send messages to this user due to having no mutual guilds"}
	errOldEdits          = &apiError{status: 400, code: 30046, message: "Maximum number of edits to messages older than 1 hour reached. Try again later."}
)

// invalidBody is what a body gets that breaks the rules of form.
func invalidBody(reasons ...string) *apiError {
	return &apiError{status: 400, code: 50035, message: "Invalid Form Body", reasons: reasons}
}
