//! The form of the order of work.

use schemars::JsonSchema;
use serde::Serialize;

/// A group of steps.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Step")]
pub struct StepDocument {
    /// What people read.
    pub title: String,
    /// In the order of work.
    pub actions: Vec<ActionDocument>,
    /// The maker does not say it: all of it is worked out.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub worked_out: bool,
}

/// One action.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Action")]
pub struct ActionDocument {
    /// The trade's word for it; of words alone, note.
    #[serde(rename = "do")]
    pub verb: String,
    /// What it is done to: seams and closures by name, edges and pieces with their piece and layer.
    pub to: Vec<String>,
    /// The seams of the size that it sews, bastes, presses, or whose gaps it turns or closes, by their ids.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub seams: Vec<String>,
    /// The only layer that it is done in.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub layer: Option<String>,
    /// Which way it is pressed, where that is said: a way for each thing that says one.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub pressed: Vec<String>,
    /// What else the maker says of it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub words: Option<String>,
    /// The maker does not say it: it is worked out.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub worked_out: bool,
    /// Of what is worked out, why each thing is done here.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub reasons: Vec<String>,
}

/// What `fustian steps --format json` writes.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "Steps")]
pub struct StepsDocument {
    /// What the garment is called.
    pub garment: String,
    /// Line by line, in the order of work.
    pub steps: Vec<StepLineDocument>,
}

/// One thing that is done.
#[derive(Clone, Debug, Serialize, JsonSchema)]
#[schemars(rename = "StepLine")]
pub struct StepLineDocument {
    /// The step that it belongs to.
    pub step: String,
    /// The trade's word for it; of words alone, note.
    #[serde(rename = "do")]
    pub verb: String,
    /// What it is done to.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub to: Option<String>,
    /// What people read of that, where its maker says it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub label: Option<String>,
    /// In which layers.
    pub layers: Vec<String>,
    /// How many times it is done, on all copies.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub times: Option<u32>,
    /// Which way it is pressed, where that is said.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub pressed: Option<String>,
    /// What else the maker says of it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub words: Option<String>,
    /// The maker does not say it: it is worked out.
    pub worked_out: bool,
    /// Of what is worked out, why it is done here.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub reason: Option<String>,
}
