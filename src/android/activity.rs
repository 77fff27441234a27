//! Calls of `android/java/app/tautmark/Main.java`, the window as Android has it.

use jni::errors::Result;
use jni::objects::{JByteArray, JObject, JObjectArray, JString, JValue};
use jni::refs::Global;
use jni::strings::JNIStr;
use jni::{Env, JavaVM, jni_sig, jni_str};
use slint::android::AndroidApp;

/// The window as Android has it.
#[derive(Clone)]
pub(super) struct Activity {
    app: AndroidApp,
}

/// What came from outside.
pub(super) enum Came {
    /// The person came back from picking without a file.
    Nothing,
    /// A file: its name, and its bytes where they can be read.
    File(String, Option<Vec<u8>>),
}

impl Activity {
    pub(super) fn of(app: &AndroidApp) -> Self {
        Self { app: app.clone() }
    }

    /// Lets the person pick a file.
    pub(super) fn pick(&self) -> Result<()> {
        self.with(|env, main| {
            env.call_method(main, jni_str!("pick"), jni_sig!(() -> void), &[])?;
            Ok(())
        })
    }

    /// What came from outside since this was last asked; at most `longest` bytes of it and one more. The
    /// program that keeps the file may take its time.
    pub(super) fn take_brought(&self, longest: i32) -> Result<Option<Came>> {
        self.with(|env, main| {
            let sig = jni_sig!("(I)[Ljava/lang/Object;");
            let longest = [JValue::Int(longest)];
            let came = env.call_method(main, jni_str!("takeBrought"), sig, &longest)?;
            let came = came.l()?;
            if came.is_null() {
                return Ok(None);
            }
            let came = env.cast_local::<JObjectArray>(came)?;
            let name = came.get_element(env, 0)?;
            if name.is_null() {
                return Ok(Some(Came::Nothing));
            }
            let name = env.cast_local::<JString>(name)?.to_string();
            let bytes = came.get_element(env, 1)?;
            if bytes.is_null() {
                return Ok(Some(Came::File(name, None)));
            }
            let bytes = env.cast_local::<JByteArray>(bytes)?;
            let bytes = env.convert_byte_array(&bytes)?;
            Ok(Some(Came::File(name, Some(bytes))))
        })
    }

    /// Keeps a file among the downloads; what is wrong in Android's words.
    pub(super) fn save(&self, name: &str, kind: &str, bytes: &[u8]) -> Result<Option<String>> {
        self.hand_over(jni_str!("save"), name, kind, bytes)
    }

    /// Offers a file to other programs; what is wrong in Android's words.
    pub(super) fn share(&self, name: &str, kind: &str, bytes: &[u8]) -> Result<Option<String>> {
        self.hand_over(jni_str!("share"), name, kind, bytes)
    }

    /// Whether the phone has a program that reads aloud.
    pub(super) fn has_voice(&self) -> Result<bool> {
        self.with(|env, main| {
            env.call_method(main, jni_str!("hasVoice"), jni_sig!("()Z"), &[])?
                .z()
        })
    }

    /// Reads words aloud, in place of what is being read.
    pub(super) fn say(&self, words: &str) -> Result<()> {
        self.with(|env, main| {
            let words = JString::new(env, words)?;
            let sig = jni_sig!("(Ljava/lang/String;)V");
            env.call_method(main, jni_str!("say"), sig, &[JValue::Object(&words)])?;
            Ok(())
        })
    }

    /// Falls silent.
    pub(super) fn hush(&self) -> Result<()> {
        self.with(|env, main| {
            env.call_method(main, jni_str!("hush"), jni_sig!(() -> void), &[])?;
            Ok(())
        })
    }

    fn hand_over(
        &self,
        way: &'static JNIStr,
        name: &str,
        media_type: &str,
        bytes: &[u8],
    ) -> Result<Option<String>> {
        self.with(|env, main| {
            let sig = jni_sig!("(Ljava/lang/String;Ljava/lang/String;[B)Ljava/lang/String;");
            let name = JString::new(env, name)?;
            let media_type = JString::new(env, media_type)?;
            let bytes = env.byte_array_from_slice(bytes)?;
            let args = [
                JValue::Object(&name),
                JValue::Object(&media_type),
                JValue::Object(&bytes),
            ];
            let wrong = env.call_method(main, way, sig, &args)?.l()?;
            if wrong.is_null() {
                return Ok(None);
            }
            Ok(Some(env.cast_local::<JString>(wrong)?.to_string()))
        })
    }

    fn with<T>(&self, what: impl FnOnce(&mut Env<'_>, &JObject<'_>) -> Result<T>) -> Result<T> {
        let vm = JavaVM::singleton().unwrap_or_else(|_| {
            // Safety: android-activity gives the process's one Java machine, which outlives it.
            unsafe { JavaVM::from_raw(self.app.vm_as_ptr().cast()) }
        });
        vm.attach_current_thread(|env| {
            let main = self.app.activity_as_ptr().cast();
            // Safety: android-activity holds a global reference to the activity as long as the app.
            let main = unsafe { env.as_cast_raw::<Global<JObject<'static>>>(&main)? };
            let object: &JObject<'_> = main.as_ref();
            what(env, object)
        })
    }
}
