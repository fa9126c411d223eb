#include "tests/support/run_program.hpp"

#include <cstdlib>
#include <fstream>
#include <sstream>
#include <stdexcept>

#include <fcntl.h>
#include <spawn.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include "tests/support/places.hpp"

extern char** environ;  // NOLINT(readability-redundant-declaration): POSIX leaves it to the user

namespace drumlin::support {

namespace fs = std::filesystem;

namespace {

fs::path new_folder() {
  std::string name = (fs::temp_directory_path() / "drumlin-test-XXXXXX").string();
  if (mkdtemp(name.data()) == nullptr) throw std::runtime_error("no scratch folder: " + name);
  return name;
}

}  // namespace

RunningProgram::RunningProgram(const std::vector<std::string>& arguments) : folder_(new_folder()) {
  std::vector<std::string> words{program()};
  words.insert(words.end(), arguments.begin(), arguments.end());
  std::vector<char*> argv;
  for (std::string& word : words)
    argv.push_back(word.data());
  argv.push_back(nullptr);
  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  constexpr int flags = O_WRONLY | O_CREAT | O_TRUNC;
  const std::string out = folder_ / "out";
  const std::string err = folder_ / "err";
  posix_spawn_file_actions_addopen(&actions, STDIN_FILENO, "/dev/null", O_RDONLY, 0);
  posix_spawn_file_actions_addopen(&actions, STDOUT_FILENO, out.c_str(), flags, 0600);
  posix_spawn_file_actions_addopen(&actions, STDERR_FILENO, err.c_str(), flags, 0600);
  const int failure = posix_spawn(&id_, program().c_str(), &actions, nullptr, argv.data(), environ);
  posix_spawn_file_actions_destroy(&actions);
  if (failure != 0) throw std::runtime_error("cannot start " + program());
}

RunningProgram::~RunningProgram() {
  if (id_ > 0) {
    send(SIGKILL);
    int status = 0;
    waitpid(id_, &status, 0);
  }
  std::error_code ignored;
  fs::remove_all(folder_, ignored);
}

void RunningProgram::send(int signal) const {
  kill(id_, signal);
}

Outcome RunningProgram::wait() {
  int status = 0;
  rusage used{};
  wait4(id_, &status, 0, &used);
  id_ = -1;
  return {WIFEXITED(status) ? WEXITSTATUS(status) : -WTERMSIG(status), read_file(folder_ / "out"),
          read_file(folder_ / "err"), used.ru_maxrss};
}

Outcome run_program(const std::vector<std::string>& arguments) {
  return RunningProgram(arguments).wait();
}

ScratchFolder::ScratchFolder() : path_(new_folder()) {}

ScratchFolder::~ScratchFolder() {
  std::error_code ignored;
  fs::remove_all(path_, ignored);
}

std::string ScratchFolder::file(const std::string& name, const std::string& text) const {
  std::ofstream(path_ / name, std::ios::binary) << text;
  return at(name);
}

std::string read_file(const fs::path& file) {
  std::ostringstream text;
  text << std::ifstream(file, std::ios::binary).rdbuf();
  return text.str();
}

std::map<std::string, std::string> files_of(const fs::path& folder) {
  std::map<std::string, std::string> files;
  for (const auto& entry : fs::recursive_directory_iterator(folder))
    if (entry.is_regular_file())
      files[entry.path().lexically_relative(folder).generic_string()] = read_file(entry.path());
  return files;
}

}  // namespace drumlin::support
